import type { Deviation } from '@curebook/contract/deviations'
import type { RowsSql } from '#platform/sql-rows'
import { deviationText } from './excursions.repository.ts'
import { decidingKinds } from './holds.repository.ts'
import { findLinked, itemOf, linkedTo } from './linked-deviations.repository.ts'
import { findNotes } from './deviation-notes.repository.ts'
import { waitingUnder } from './waiting.ts'

type DeviationRow = Omit<Deviation, 'by' | 'openedAt' | 'decision' | 'waiting' | 'specimens' | 'notes'> & {
  openedAt: Date
  byId: string | null
  byName: string | null
  byInitials: string | null
  decisionKind: NonNullable<Deviation['decision']>['kind'] | null
  decisionReason: string | null
  decidedAt: Date | null
  deciderId: string | null
  deciderName: string | null
  deciderInitials: string | null
}

/** Deviations, newest first; only those waiting for a decision with `open`. What a rule opened is by the laboratory's own rule. */
export async function findDeviations(
  sql: RowsSql,
  { open, designId, id }: { open?: boolean; designId?: string | null; id?: string | null },
): Promise<Deviation[]> {
  const rows = await sql.rows<DeviationRow>(
    `select d.id, d.kind, ${deviationText('d')} as text, d.inside_word as "insideWord", d.at as "openedAt", d.opened_by_rule as "openedByRule", d.test_id as "testId", i.code as "itemCode", t.label, g.id as "designId", g.name as "designName",
            m.id as "byId", m.name as "byName", m.initials as "byInitials",
            e.kind as "decisionKind", e.reason as "decisionReason", e.at as "decidedAt", em.id as "deciderId", em.name as "deciderName", em.initials as "deciderInitials"
       from deviation d
       left join test_event t on t.lab_id = d.lab_id and t.id = d.test_id
       left join item i on i.lab_id = d.lab_id and i.id = coalesce(d.item_id, t.item_id)
       left join design_revision r on r.lab_id = d.lab_id and r.id = coalesce(d.design_revision_id, t.design_revision_id)
       left join design g on g.lab_id = r.lab_id and g.id = r.design_id
       left join membership m on m.lab_id = d.lab_id and m.id = d.by_id
       left join lateral (
         select * from deviation_event e where e.lab_id = d.lab_id and e.deviation_id = d.id and e.kind in ${decidingKinds} order by e.at desc, e.id desc limit 1
       ) e on true
       left join membership em on em.lab_id = e.lab_id and em.id = e.by_id
      where d.lab_id = $1::uuid and ($2::uuid is null or d.id = $2::uuid) and ($3::uuid is null or g.id = $3::uuid or ${linkedTo('d.id', '$3::uuid')} or (d.test_id is null and ${itemOf('d.item_id', '$3::uuid')})) and (not $4::boolean or e.id is null)
      order by d.at desc, d.id limit 500`,
    [sql.actor.labId, id ?? null, designId ?? null, open ?? false],
  )
  const waiting = await waitingUnder(
    sql,
    rows.filter(({ decisionKind }) => decisionKind === null).map((row) => row.id),
  )
  const linked = await findLinked(
    sql,
    rows.flatMap((row) => (row.testId === null ? [row.id] : [])),
  )
  const notes = await findNotes(
    sql,
    rows.map((row) => row.id),
  )
  return rows.map((row) => ({
    ...toDeviation(row),
    notes: notes.get(row.id) ?? [],
    specimens: linked.get(row.id) ?? [],
    waiting: waiting.get(row.id) ?? null,
  }))
}

function toDeviation({
  byId,
  byName,
  byInitials,
  decisionKind,
  decisionReason,
  decidedAt,
  deciderId,
  deciderName,
  deciderInitials,
  openedAt,
  ...row
}: DeviationRow): Omit<Deviation, 'waiting' | 'specimens' | 'notes'> {
  return {
    ...row,
    openedAt: openedAt.toISOString(),
    by: byId ? { membershipId: byId, name: byName!, initials: byInitials! } : null,
    decision: decisionKind
      ? {
          kind: decisionKind,
          reason: decisionReason!,
          by: deciderId ? { membershipId: deciderId, name: deciderName!, initials: deciderInitials! } : null,
          at: decidedAt!.toISOString(),
        }
      : null,
  }
}
