import type { PartFitting } from '@curebook/contract/parts'
import { personName } from '#platform/row-values'
import type { FittingRow } from './part-fittings.repository.ts'

/** Fittings of one machine, the latest first; each one that stands ends the one of its kind before it. */
export function toFittings(rows: readonly FittingRow[]): PartFitting[] {
  const latestFirst = rows.toSorted((a, b) => fittedAt(b) - fittedAt(a) || b.at.getTime() - a.at.getTime())
  return latestFirst.map((row, index) => ({
    id: row.id,
    kind: row.kind as PartFitting['kind'],
    lot: row.partLot.lot,
    hardness: row.hardnessText,
    fittedAt: iso(fittedAt(row)),
    takenOffAt: row.supersededBy ? null : takenOffAt(row, latestFirst.slice(0, index)),
    by: personName(row.by),
    note: row.note,
    supersedes: row.supersedesId && row.reason ? { id: row.supersedesId, reason: row.reason } : null,
    superseded: row.supersededBy !== null,
  }))
}

function takenOffAt(row: FittingRow, later: readonly FittingRow[]): string | null {
  const next = later.findLast(({ kind, supersededBy }) => kind === row.kind && supersededBy === null)
  return next ? iso(fittedAt(next)) : null
}

/** By the server's clock: as told, put right by what the device's clock was off. */
const fittedAt = ({ eventAt, offsetMs }: FittingRow) => eventAt.getTime() + Number(offsetMs ?? 0)
const iso = (milliseconds: number) => new Date(milliseconds).toISOString()
