import type { Reading, StepEvent } from '@curebook/contract/bench'
import { waitsSql } from './holds.repository.ts'
import { partsOfRuns } from './machine-parts.repository.ts'
import type { RowsSql } from '#platform/sql-rows'

type ReadingRow = Omit<
  Reading,
  'by' | 'eventAt' | 'receivedAt' | 'instrument' | 'supersedes' | 'withdrawn' | 'attachment' | 'drawnFrom'
> & {
  attachmentId: string | null
  attachmentName: string | null
  drawnFromId: string | null
  drawnFromCode: string | null
  eventAt: Date
  receivedAt: Date
  byId: string
  byName: string
  byInitials: string
  instrumentId: string | null
  instrumentCode: string | null
  withdrawnAt: Date | null
  withdrawnReason: string | null
  withdrawnById: string | null
  withdrawnByName: string | null
  withdrawnByInitials: string | null
  supersedesId: string | null
  supersedesTyped: string | null
  supersedesById: string | null
  supersedesByName: string | null
  supersedesByInitials: string | null
  reason: string | null
}

/** When it happened by the server's clock: as told, put right by what the device's clock was off. */
const effective = (table: string) => `${table}.event_at + coalesce(${table}.offset_ms, 0) * interval '1 millisecond'`

/** Readings of tests, or by their ids, in the order in which they were observed; corrected ones included. */
export async function readingViews(
  sql: RowsSql,
  { testIds = [], ids = [] }: { testIds?: readonly string[]; ids?: readonly string[] },
): Promise<Reading[]> {
  const rows = await sql.rows<ReadingRow>(
    `select r.id, r.test_id as "testId", r.step_key as "stepKey", r.key, r.repeat, r.typed, r.value::text as value, r.unit, r.choice, ${effective('r')} as "eventAt", r.received_at as "receivedAt",
            r.confirmed_odd as "confirmedOdd", r.transcribed, a.id as "attachmentId", a.name as "attachmentName", x.id as "drawnFromId", x.code as "drawnFromCode", r.reason, m.id as "byId", m.name as "byName", m.initials as "byInitials", i.id as "instrumentId", i.code as "instrumentCode",
            s.id as "supersedesId", s.typed as "supersedesTyped", sm.id as "supersedesById", sm.name as "supersedesByName", sm.initials as "supersedesByInitials",
            w.received_at as "withdrawnAt", w.reason as "withdrawnReason", wm.id as "withdrawnById", wm.name as "withdrawnByName", wm.initials as "withdrawnByInitials",
            (w.id is not null or exists (select from reading c where c.lab_id = r.lab_id and c.supersedes_id = r.id)) as superseded,
            ${waitsSql('r.lab_id', 'r.id')} as waits
       from reading r
       join membership m on m.lab_id = r.lab_id and m.id = r.by_id
       left join instrument i on i.lab_id = r.lab_id and i.id = r.instrument_id
       left join attachment a on a.lab_id = r.lab_id and a.id = r.attachment_id
       left join draw d on d.lab_id = r.lab_id and d.reading_id = r.id and d.named
       left join item x on x.lab_id = d.lab_id and x.id = d.item_id
       left join reading_withdrawal w on w.lab_id = r.lab_id and w.reading_id = r.id
       left join membership wm on wm.lab_id = w.lab_id and wm.id = w.by_id
       left join reading s on s.lab_id = r.lab_id and s.id = r.supersedes_id
       left join membership sm on sm.lab_id = s.lab_id and sm.id = s.by_id
      where r.lab_id = $1::uuid and (r.test_id = any($2::uuid[]) or r.id = any($3::uuid[]))
      order by r.event_at, r.written_at, r.id`,
    [sql.actor.labId, testIds, ids],
  )
  return rows.map(toReading)
}

function toReading({
  byId,
  byName,
  byInitials,
  instrumentId,
  instrumentCode,
  attachmentId,
  attachmentName,
  drawnFromId,
  drawnFromCode,
  withdrawnAt,
  withdrawnReason,
  withdrawnById,
  withdrawnByName,
  withdrawnByInitials,
  supersedesId,
  supersedesTyped,
  supersedesById,
  supersedesByName,
  supersedesByInitials,
  reason,
  ...row
}: ReadingRow): Reading {
  return {
    ...row,
    eventAt: row.eventAt.toISOString(),
    receivedAt: row.receivedAt.toISOString(),
    by: { membershipId: byId, name: byName, initials: byInitials },
    instrument: instrumentId ? { id: instrumentId, code: instrumentCode! } : null,
    attachment: attachmentId ? { id: attachmentId, name: attachmentName! } : null,
    drawnFrom: drawnFromId ? { id: drawnFromId, code: drawnFromCode! } : null,
    // Left out where it was not: what is signed of every other reading stays as it was.
    ...(withdrawnAt && {
      withdrawn: {
        by: { membershipId: withdrawnById!, name: withdrawnByName!, initials: withdrawnByInitials! },
        at: withdrawnAt.toISOString(),
        reason: withdrawnReason!,
      },
    }),
    supersedes: supersedesId
      ? {
          id: supersedesId,
          typed: supersedesTyped!,
          by: { membershipId: supersedesById!, name: supersedesByName!, initials: supersedesByInitials! },
          reason: reason!,
        }
      : null,
  }
}

/** Confirmed acts of tests that stand, in the order in which they happened. */
export async function eventViews(
  sql: RowsSql,
  testIds: readonly string[],
): Promise<(StepEvent & { testId: string })[]> {
  const rows = await sql.rows<{
    testId: string
    id: string
    stepKey: string
    kind: 'start' | 'end' | 'void'
    eventAt: Date
    receivedAt: Date
    note: string | null
    reason: string | null
    correctedAt: Date | null
    correctedName: string | null
    transcribed: boolean
    byId: string
    byName: string
    byInitials: string
  }>(
    `select s.test_id as "testId", s.id, s.step_key as "stepKey", s.kind, ${effective('s')} as "eventAt", s.received_at as "receivedAt", s.note, s.reason, ${effective('o')} as "correctedAt", om.name as "correctedName", s.event_from = 'paper' as transcribed, m.id as "byId", m.name as "byName", m.initials as "byInitials"
       from step_event s
       join membership m on m.lab_id = s.lab_id and m.id = s.by_id
       left join step_event o on o.lab_id = s.lab_id and o.id = s.supersedes_id
       left join membership om on om.lab_id = o.lab_id and om.id = o.by_id
      where s.lab_id = $1::uuid and s.test_id = any($2::uuid[]) and s.kind in ('start', 'end', 'void')
        and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)
      order by s.event_at, s.written_at, s.id`,
    [sql.actor.labId, testIds],
  )
  const parts = await partsOfRuns(sql, testIds)
  return rows.map(({ byId, byName, byInitials, reason, correctedAt, correctedName, ...row }) => ({
    ...row,
    eventAt: row.eventAt.toISOString(),
    receivedAt: row.receivedAt.toISOString(),
    by: { membershipId: byId, name: byName, initials: byInitials },
    corrects:
      correctedAt === null || reason === null
        ? null
        : { at: correctedAt.toISOString(), name: correctedName ?? '', reason },
    parts: parts
      .filter(({ eventId }) => eventId === row.id)
      .map(({ kind, lot, fittedAt }) => ({ kind, lot, fittedAt })),
  }))
}
