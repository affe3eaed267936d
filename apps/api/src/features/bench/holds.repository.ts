import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import type { CalibrationSpan } from './calibration-fault.ts'
import type { TestRecord } from './test-record.ts'

/** A cause for which a reading waits: one deviation a test and cause, while nobody has decided it. */
export type HoldCause = {
  readonly kind: 'calibration' | 'competence' | 'custody'
  readonly text: string
  readonly instrumentId: string | null
}

/** SQL: whether a reading waits under a deviation that nobody has released. */
export const waitsSql = (lab: string, readingId: string) => `exists (
  select from reading_hold h where h.lab_id = ${lab} and h.reading_id = ${readingId}
    and not exists (select from deviation_event e where e.lab_id = h.lab_id and e.deviation_id = h.deviation_id and e.kind = 'release'))`

/** SQL: the kinds of act that decide a deviation; a note on it decides nothing. */
export const decidingKinds = `('accept', 'void', 'repeat', 'release', 'exclude', 'close')`

/** SQL: whether a reading was decided to be left out: it never counts. */
export const leftOutSql = (lab: string, readingId: string) => `exists (
  select from reading_hold h join deviation_event e on e.lab_id = h.lab_id and e.deviation_id = h.deviation_id and e.kind = 'exclude'
   where h.lab_id = ${lab} and h.reading_id = ${readingId})`

/** Calibrations of instruments that stand, in the order in which they were done. */
export function findCalibrationsOf(
  sql: RowsSql,
  instrumentIds: readonly string[],
): Promise<(CalibrationSpan & { instrumentId: string })[]> {
  return sql.rows<CalibrationSpan & { instrumentId: string }>(
    `select c.instrument_id as "instrumentId", c.done_on::text as "doneOn", c.valid_until::text as "validUntil", c.passed
       from calibration c
      where c.lab_id = $1::uuid and c.instrument_id = any($2::uuid[])
        and not exists (select from calibration d where d.lab_id = c.lab_id and d.supersedes_id = c.id)
      order by c.done_on, c.at, c.id`,
    [sql.actor.labId, instrumentIds],
  )
}

/** The undecided deviation of this test and cause: of the instrument, of the item, or of readings by this person. */
async function findOpen(sql: RowsSql, testId: string, cause: HoldCause): Promise<string | null> {
  const [found] = await sql.rows<{ id: string }>(
    `select d.id from deviation d
      where d.lab_id = $1::uuid and d.test_id = $2::uuid and d.kind = $3 and d.opened_by_rule
        and d.instrument_id is not distinct from $4::uuid
        and not exists (select from deviation_event e where e.lab_id = d.lab_id and e.deviation_id = d.id and e.kind in ${decidingKinds})
        and exists (select from reading_hold h join reading r on r.lab_id = h.lab_id and r.id = h.reading_id
                     where h.lab_id = d.lab_id and h.deviation_id = d.id and ($3 <> 'competence' or r.by_id = $5::uuid))
      order by d.at, d.id limit 1`,
    [sql.actor.labId, testId, cause.kind, cause.instrumentId, sql.actor.membershipId],
  )
  return found?.id ?? null
}

/** The deviations under which a reading waits. */
export async function findHolding(sql: RowsSql, readingId: string): Promise<readonly string[]> {
  const rows = await sql.rows<{ id: string }>(
    `select h.deviation_id as id from reading_hold h where h.lab_id = $1::uuid and h.reading_id = $2::uuid
        and not exists (select from deviation_event e where e.lab_id = h.lab_id and e.deviation_id = h.deviation_id and e.kind = 'release')`,
    [sql.actor.labId, readingId],
  )
  return rows.map(({ id }) => id)
}

/** The deviation of a cause: the open one of the test, or a new one. @returns its id and the row that was written */
export async function openFor(
  sql: RowsSql,
  record: TestRecord,
  readingId: string,
  cause: HoldCause,
): Promise<{ id: string; rows: LedgerRow[] }> {
  const open = await findOpen(sql, record.id, cause)
  if (open) return { id: open, rows: [] }
  const row = {
    labId: sql.actor.labId,
    id: newId(),
    kind: cause.kind,
    openedByRule: true,
    testId: record.id,
    itemId: record.itemId,
    instrumentId: cause.instrumentId,
    readingId,
    text: cause.text,
    at: sql.at,
  }
  await sql.rows(
    `insert into deviation (lab_id, id, kind, opened_by_rule, test_id, item_id, instrument_id, reading_id, text, at)
     values ($1::uuid, $2::uuid, $3, true, $4::uuid, $5::uuid, $6::uuid, $7::uuid, $8, $9::timestamptz)`,
    [row.labId, row.id, row.kind, row.testId, row.itemId, row.instrumentId, row.readingId, row.text, row.at],
  )
  return { id: row.id, rows: [ledgerContentOf('deviation', row)] }
}

/** Lets a reading wait under these deviations; it stands in its slot and does not count. */
export async function insertHolds(
  sql: RowsSql,
  readingId: string,
  deviationIds: readonly string[],
): Promise<LedgerRow[]> {
  await sql.rows(
    `insert into reading_hold (lab_id, reading_id, deviation_id, at) select $1::uuid, $2::uuid, d, $4::timestamptz from unnest($3::uuid[]) d`,
    [sql.actor.labId, readingId, deviationIds, sql.at],
  )
  await sql.rows('update slot_now set counts = false where lab_id = $1::uuid and reading_id = $2::uuid', [
    sql.actor.labId,
    readingId,
  ])
  return deviationIds.map((deviationId) =>
    ledgerContentOf('reading_hold', { labId: sql.actor.labId, readingId, deviationId, at: sql.at }),
  )
}

/** After a release: what waits for nothing else counts again. */
export async function countReleased(sql: RowsSql, deviationId: string): Promise<void> {
  await sql.rows(
    `update slot_now s set counts = true
      where s.lab_id = $1::uuid and not s.counts
        and exists (select from reading_hold h where h.lab_id = s.lab_id and h.reading_id = s.reading_id and h.deviation_id = $2::uuid)
        and not ${waitsSql('s.lab_id', 's.reading_id')}`,
    [sql.actor.labId, deviationId],
  )
}

export type WaitingRow = {
  readonly deviationId: string
  readonly readingId: string
  readonly stepKey: string
  readonly key: string
  readonly typed: string
  readonly byId: string
}

/** The standing readings that wait under these deviations, of loads too; those of an ended test wait for nothing any more. */
export function findWaiting(sql: RowsSql, deviationIds: readonly string[]): Promise<WaitingRow[]> {
  return sql.rows<WaitingRow>(
    `select h.deviation_id as "deviationId", r.id as "readingId", r.step_key as "stepKey", r.key, r.typed, r.by_id as "byId"
       from reading_hold h
       join reading r on r.lab_id = h.lab_id and r.id = h.reading_id
       left join slot_now s on s.lab_id = r.lab_id and s.reading_id = r.id
       left join test_now n on n.lab_id = r.lab_id and n.test_id = r.test_id and n.state not in ('void', 'replaced')
      where h.lab_id = $1::uuid and h.deviation_id = any($2::uuid[])
        and ((s.reading_id is not null and n.test_id is not null)
          or (r.load_id is not null and not exists (select from reading c where c.lab_id = r.lab_id and c.supersedes_id = r.id)))
        and not exists (select from deviation_event e where e.lab_id = h.lab_id and e.deviation_id = h.deviation_id and e.kind in ${decidingKinds})
      order by r.event_at, r.id`,
    [sql.actor.labId, deviationIds],
  )
}
