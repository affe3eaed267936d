import type { JudgedWindow } from '@curebook/trade/procedure/windows'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import { insertRuleEvent } from './deviation-notes.repository.ts'
import type { TestRecord } from './test-record.ts'
import { findMisses, type HeldMiss } from './window-outcomes.repository.ts'
import { missedWindowSentence } from './window-sentence.ts'

/**
 * Holds a missed window for a decision. A decision covers a miss of its kind up to the size that was decided: one that is
 * larger by now is another. An undecided one says what stands: with other minutes it is closed, and another takes its place.
 * The test is locked. @returns rows for the ledger entry of the act
 */
export async function holdMiss(
  sql: RowsSql,
  record: TestRecord,
  window: JudgedWindow,
  windowOutcomeId: string,
): Promise<readonly LedgerRow[]> {
  const held = await findMisses(sql, record.id, window.key)
  const open = held.filter(({ decision }) => decision === null)
  const isSaid = open.some((miss) => isAsMuch(miss, window)) || held.some((miss) => isCovered(miss, window))
  const rows: LedgerRow[] = []
  for (const miss of open.filter((one) => !isAsMuch(one, window)))
    rows.push(await insertRuleEvent(sql, miss.id, 'close', closedBecause(record, window, isSaid)))
  if (!isSaid) rows.push(await openDeviation(sql, record, window, windowOutcomeId))
  return rows
}

function isAsMuch({ outcome, marginS }: HeldMiss, { state, marginSeconds }: JudgedWindow): boolean {
  return outcome === state && marginS === marginSeconds
}

/** Margins of misses are negative: the smaller is farther out. What a rule closed, nobody has looked at. */
function isCovered({ outcome, marginS, decision }: HeldMiss, { state, marginSeconds }: JudgedWindow): boolean {
  if (decision === null || decision === 'close' || outcome !== state) return false
  return (marginS ?? 0) <= (marginSeconds ?? 0)
}

function closedBecause(record: TestRecord, window: JudgedWindow, isSaid: boolean): string {
  const now = `Told since: ${missedWindowSentence(record, window)}`
  return isSaid ? `${now} That was decided already.` : `${now} Another stands in its place.`
}

async function openDeviation(
  sql: RowsSql,
  record: TestRecord,
  window: JudgedWindow,
  windowOutcomeId: string,
): Promise<LedgerRow> {
  const row = {
    labId: sql.actor.labId,
    id: newId(),
    kind: 'window',
    openedByRule: true,
    testId: record.id,
    itemId: record.itemId,
    windowOutcomeId,
    text: missedWindowSentence(record, window),
    at: sql.at,
  }
  await sql.rows(
    `insert into deviation (lab_id, id, kind, opened_by_rule, test_id, item_id, window_outcome_id, text, at)
     values ($1::uuid, $2::uuid, $3, $4, $5::uuid, $6::uuid, $7::uuid, $8, $9::timestamptz)`,
    [row.labId, row.id, row.kind, row.openedByRule, row.testId, row.itemId, row.windowOutcomeId, row.text, row.at],
  )
  return ledgerContentOf('deviation', row)
}
