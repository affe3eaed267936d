import type { Observation, PostObservation } from '@curebook/contract/observations'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import type { Told } from '#platform/told-time'

type ObservationRow = Omit<Observation, 'eventAt' | 'receivedAt' | 'by' | 'attachment' | 'supersedes'> & {
  supersedesId: string | null
  reason: string | null
  eventAt: Date
  receivedAt: Date
  byId: string
  byName: string
  byInitials: string
  attachmentId: string | null
  attachmentName: string
  mediaType: string
  sha256: string
}

/** What was seen on tests, or under one id, in the order in which it was seen. */
export async function findObservations(
  sql: RowsSql,
  { testIds = [], id = null }: { testIds?: readonly string[]; id?: string | null },
): Promise<Observation[]> {
  const rows = await sql.rows<ObservationRow>(
    `select s.id, s.test_id as "testId", s.step_key as "stepKey", s.choice, s.note, s.supersedes_id as "supersedesId", s.reason, s.received_at as "receivedAt",
            exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id) as superseded,
            s.event_at + coalesce(s.offset_ms, 0) * interval '1 millisecond' as "eventAt",
            m.id as "byId", m.name as "byName", m.initials as "byInitials",
            a.id as "attachmentId", a.name as "attachmentName", a.media_type as "mediaType", encode(a.sha256, 'hex') as sha256
       from step_event s
       join membership m on m.lab_id = s.lab_id and m.id = s.by_id
       left join attachment a on a.lab_id = s.lab_id and a.id = s.attachment_id
      where s.lab_id = $1::uuid and s.kind = 'observe' and (s.test_id = any($2::uuid[]) or s.id = $3::uuid)
      order by s.event_at, s.written_at, s.id`,
    [sql.actor.labId, testIds, id],
  )
  return rows.map(toObservation)
}

function toObservation({
  byId,
  byName,
  byInitials,
  attachmentId,
  attachmentName,
  mediaType,
  sha256,
  eventAt,
  receivedAt,
  supersedesId,
  reason,
  ...row
}: ObservationRow): Observation {
  return {
    ...row,
    eventAt: eventAt.toISOString(),
    receivedAt: receivedAt.toISOString(),
    by: { membershipId: byId, name: byName, initials: byInitials },
    attachment: attachmentId ? { id: attachmentId, name: attachmentName, mediaType, sha256 } : null,
    supersedes: supersedesId && reason ? { id: supersedesId, reason } : null,
  }
}

/** @returns its row for the ledger */
export async function insertObservation(
  sql: RowsSql,
  testId: string,
  { id, stepKey, choice, note, attachmentId, supersedes }: PostObservation,
  told: Told,
): Promise<LedgerRow> {
  // A word on why it is told late stands behind what was seen.
  const words = [note, told.note].filter(Boolean).join(' · ') || null
  const row = {
    labId: sql.actor.labId,
    id,
    testId,
    stepKey,
    kind: 'observe',
    eventAt: told.eventAt,
    eventFrom: told.eventFrom,
    sentAt: told.sentAt,
    receivedAt: told.receivedAt,
    offsetMs: told.offsetMs,
    note: words,
    choice,
    attachmentId,
    supersedesId: supersedes?.id ?? null,
    reason: supersedes?.reason ?? null,
    byId: sql.actor.membershipId,
    at: sql.at,
  }
  await sql.rows(
    `insert into step_event (lab_id, id, test_id, step_key, kind, event_at, event_from, sent_at, received_at, offset_ms, note, choice, attachment_id, supersedes_id, reason, by_id, at)
     values ($1::uuid, $2::uuid, $3::uuid, $4, $5, $6::timestamptz, $7, $8::timestamptz, $9::timestamptz, $10, $11, $12, $13::uuid, $14::uuid, $15, $16::uuid, $17::timestamptz)`,
    Object.values(row),
  )
  return ledgerContentOf('step_event', row)
}

/** The tests of a design, and the specimen's test that each belongs to: a batch's is that of what was cast from it. */
export function testsOfDesign(sql: RowsSql, designId: string): Promise<{ testId: string; specimenTestId: string }[]> {
  return sql.rows(
    `select t.id as "testId",
            coalesce(case when t.method_key = 'batch' then (
              select o.id from item_parent l join test_event o on o.lab_id = l.lab_id and o.item_id = case when l.child_id = t.item_id then l.parent_id else l.child_id end
               where l.lab_id = t.lab_id and t.item_id in (l.child_id, l.parent_id) and o.method_key <> 'batch' limit 1) end, t.id) as "specimenTestId"
       from test_event t join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
      where t.lab_id = $1::uuid and r.design_id = $2::uuid`,
    [sql.actor.labId, designId],
  )
}

export async function hasDesign(sql: RowsSql, id: string): Promise<boolean> {
  const found = await sql.rows('select id from design where lab_id = $1::uuid and id = $2::uuid', [sql.actor.labId, id])
  return found.length > 0
}
