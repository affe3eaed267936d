import type { Deviation } from '@curebook/contract/deviations'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'

/** What was found later about deviations, in the order in which it was. */
export async function findNotes(
  sql: RowsSql,
  deviationIds: readonly string[],
): Promise<ReadonlyMap<string, Deviation['notes']>> {
  if (deviationIds.length === 0) return new Map()
  const rows = await sql.rows<{ deviationId: string; text: string; at: Date }>(
    `select e.deviation_id as "deviationId", e.reason as text, e.at from deviation_event e
      where e.lab_id = $1::uuid and e.deviation_id = any($2::uuid[]) and e.kind = 'notify' order by e.at, e.written_at, e.id`,
    [sql.actor.labId, deviationIds],
  )
  const notes = new Map<string, Deviation['notes']>()
  for (const { deviationId, text, at } of rows)
    notes.set(deviationId, [...(notes.get(deviationId) ?? []), { text, at: at.toISOString() }])
  return notes
}

/**
 * A note on a decided deviation, or the closing of one that nothing rests on any more, by whoever's act showed it; nobody's
 * where a logger did. @returns its row for the ledger
 */
export async function insertRuleEvent(
  sql: RowsSql,
  deviationId: string,
  kind: 'notify' | 'close',
  reason: string,
): Promise<LedgerRow> {
  const byId = sql.actor.membershipId || null
  const row = { labId: sql.actor.labId, id: newId(), deviationId, kind, reason, byId, at: sql.at }
  await sql.rows(
    `insert into deviation_event (lab_id, id, deviation_id, kind, reason, by_id, at)
     values ($1::uuid, $2::uuid, $3::uuid, $4, $5, $6::uuid, $7::timestamptz)`,
    [row.labId, row.id, row.deviationId, row.kind, row.reason, row.byId, row.at],
  )
  return ledgerContentOf('deviation_event', row)
}
