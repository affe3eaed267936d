import type { Material, MaterialKind } from '@curebook/contract/materials'
import { dayOf } from '#platform/row-values'
import type { MaterialRow } from './materials.repository.ts'

/** A sample as received. Its day is the one that was told, whenever it was entered. */
export function toMaterial(row: MaterialRow): Material {
  return {
    id: row.id,
    code: row.code,
    kind: row.materialKind as MaterialKind,
    name: row.name ?? '',
    sourceName: row.sourceName ?? '',
    supplier: row.supplier ?? '',
    lot: row.lot ?? '',
    receivedOn: dayOf(row.receivedOn ?? row.madeAt),
    note: row.note ?? '',
    createdAt: row.at.toISOString(),
  }
}
