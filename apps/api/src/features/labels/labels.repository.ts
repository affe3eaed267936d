import type { Label } from '@curebook/contract/labels'
import type { RowsSql } from '#platform/sql-rows'

export type LabelledItem = {
  readonly id: string
  readonly code: string
  readonly kind: string
  readonly laboratory: string
  readonly name: string | null
  readonly materialKind: string | null
  readonly sourceName: string | null
  readonly supplier: string | null
  readonly lot: string | null
  readonly receivedOn: string | null
  readonly fraction: string | null
}

export async function findLabelledItem(sql: RowsSql, id: string): Promise<LabelledItem | undefined> {
  const [row] = await sql.rows<LabelledItem>(
    `select i.id, i.code, i.kind, l.name as laboratory, i.name, i.material_kind as "materialKind", i.source_name as "sourceName",
            i.supplier, i.lot, to_char(i.received_on, 'YYYY-MM-DD') as "receivedOn", i.fraction
       from item i join laboratory l on l.id = i.lab_id
      where i.lab_id = $1::uuid and i.id = $2::uuid`,
    [sql.actor.labId, id],
  )
  return row
}

/** Prints as the ledger has them, the first one first: nothing else keeps them. */
export async function findPrints(sql: RowsSql, itemId: string): Promise<Label['prints']> {
  const rows = await sql.rows<{ at: Date; membershipId: string; name: string; initials: string; count: number }>(
    `select e.at, m.id as "membershipId", m.name, m.initials, (e.content::jsonb #>> '{content,count}')::int as count
       from ledger_entry e join membership m on m.lab_id = e.lab_id and m.id = e.actor_id
      where e.lab_id = $1::uuid and e.subject_kind = 'item' and e.subject_id = $2::uuid and e.action = 'label:print'
      order by e.written_at, e.id`,
    [sql.actor.labId, itemId],
  )
  return rows.map(({ at, count, ...by }) => ({ at: at.toISOString(), by, count }))
}
