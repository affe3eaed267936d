import type { JudgedWindow } from '@curebook/trade/procedure/windows'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import { newId } from '#platform/uuid'
import type { RowsSql } from '#platform/sql-rows'
import type { TestRecord } from './test-record.ts'
import { holdMiss } from './window-deviations.ts'
import { notSupersededSql } from './window-outcomes.repository.ts'

export type StoredOutcome = {
  readonly id: string
  readonly testId: string
  readonly windowKey: string
  readonly outcome: string
  readonly marginS: number | null
}

/** A device's clock this far from the server's makes a window's verdict "by device clock". */
const offsetOfDoubtMs = 60_000

export async function standingOutcomes(sql: RowsSql, testIds: readonly string[]): Promise<readonly StoredOutcome[]> {
  return sql.rows<StoredOutcome>(
    `select w.id, w.test_id as "testId", w.window_key as "windowKey", w.outcome, w.margin_s as "marginS" from window_outcome w
      where w.lab_id = $1::uuid and w.test_id = any($2::uuid[]) and ${notSupersededSql('w')}`,
    [sql.actor.labId, testIds],
  )
}

/**
 * Writes how each act met its window, once the act is done; a late message that changes a verdict supersedes it. An act too
 * early, or too late where that is a miss, is held for a person to decide, and again where it grew past what was decided.
 * @returns rows for the ledger entry of the act
 */
export async function writeOutcomes(
  sql: RowsSql,
  {
    record,
    windows,
    stored,
  }: { record: TestRecord; windows: readonly JudgedWindow[]; stored: readonly StoredOutcome[] },
): Promise<readonly LedgerRow[]> {
  const rows: LedgerRow[] = []
  for (const window of windows) {
    if (window.state !== 'met' && window.state !== 'early' && window.state !== 'late') continue
    const earlier = stored.find(({ testId, windowKey }) => testId === record.id && windowKey === window.key) ?? null
    if (earlier && earlier.outcome === window.state && earlier.marginS === window.marginSeconds) continue
    const outcome = await insertOutcome(sql, record, window, earlier)
    rows.push(ledgerContentOf('window_outcome', outcome))
    if (isMiss(window)) rows.push(...(await holdMiss(sql, record, window, outcome.id)))
  }
  return rows
}

function isMiss(window: JudgedWindow): boolean {
  return window.state === 'early' || (window.state === 'late' && window.late === 'miss')
}

async function insertOutcome(sql: RowsSql, record: TestRecord, window: JudgedWindow, earlier: StoredOutcome | null) {
  const done = actOf(record, window.step, window.act)
  const after = actOf(record, window.after.step, window.after.act)
  const row = {
    labId: sql.actor.labId,
    id: newId(),
    testId: record.id,
    windowKey: window.key,
    stepKey: window.step,
    afterEventId: after.eventId,
    afterReadingId: after.readingId,
    eventId: done.eventId,
    eventReadingId: done.readingId,
    opensAt: window.opensAt,
    closesAt: window.closesAt,
    outcome: window.state,
    marginS: window.marginSeconds,
    judgedBy: Math.max(done.offsetMs, after.offsetMs) > offsetOfDoubtMs ? 'device-clock' : 'event',
    editionId: record.editionId,
    supersedesId: earlier?.id ?? null,
    reason: earlier ? 'A later message changed when it happened' : null,
    at: sql.at,
  }
  await sql.rows(
    `insert into window_outcome (lab_id, id, test_id, window_key, step_key, after_event_id, after_reading_id, event_id, event_reading_id, opens_at, closes_at, outcome, margin_s, judged_by, edition_id, supersedes_id, reason, at)
     values ($1::uuid, $2::uuid, $3::uuid, $4, $5, $6::uuid, $7::uuid, $8::uuid, $9::uuid, $10::timestamptz, $11::timestamptz, $12, $13, $14, $15::uuid, $16::uuid, $17, $18::timestamptz)`,
    [
      row.labId,
      row.id,
      row.testId,
      row.windowKey,
      row.stepKey,
      row.afterEventId,
      row.afterReadingId,
      row.eventId,
      row.eventReadingId,
      row.opensAt && new Date(row.opensAt),
      row.closesAt && new Date(row.closesAt),
      row.outcome,
      row.marginS,
      row.judgedBy,
      row.editionId,
      row.supersedesId,
      row.reason,
      row.at,
    ],
  )
  return row
}

function actOf(record: TestRecord, step: string, act: string) {
  const event = record.events.find((candidate) => candidate.step === step && candidate.kind === act)
  const reading =
    act === 'reading'
      ? record.slots
          .filter((slot) => slot.step === step)
          .reduce<TestRecord['slots'][number] | null>((last, slot) => (last && last.at > slot.at ? last : slot), null)
      : null
  const offsetMs = Math.abs((event ?? reading)?.offsetMs ?? 0)
  return { eventId: event?.id ?? null, readingId: reading?.readingId ?? null, offsetMs }
}
