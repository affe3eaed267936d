import type { DecideDeviation, Waiting } from '@curebook/contract/deviations'
import type { LedgerRow } from '#platform/ledger-content'
import { AppError, invalidField } from '#platform/problem'
import type { RowsSql } from '#platform/sql-rows'
import { countReleased } from './holds.repository.ts'
import { settleTests, type SettleContext } from './settle.ts'
import type { TestRecord } from './test-record.ts'

/**
 * Readings that wait are released by somebody who may, exactly as they were shown; they are not accepted past it. Where
 * nothing waits there is nothing to release.
 */
export function refuseWaiting(input: DecideDeviation, waiting: Waiting | undefined): void {
  if (input.kind === 'release' && !waiting)
    throw invalidField('kind', 'No reading waits under this deviation. Accept it with a reason.')
  if (input.kind === 'accept' && waiting)
    throw invalidField('kind', 'Its readings do not count yet: release them with a reason, or void the specimen.')
  if (input.kind !== 'release' || !waiting) return
  if (!waiting.mayRelease) throw new AppError('refused-by-rule', waiting.sentence)
  const shown = new Set(input.readingIds ?? [])
  if (shown.size !== waiting.readingIds.length || waiting.readingIds.some((id) => !shown.has(id)))
    throw new AppError(
      'changed-meanwhile',
      'Other readings wait under this deviation than were shown to you. Look at them, then release.',
      { extra: { stored: waiting, sent: input } },
    )
}

/** The readings count: the test is settled again, and its result appears. @returns rows for the decision's ledger entry */
export async function release(
  sql: RowsSql,
  context: SettleContext,
  deviationId: string,
  test: TestRecord,
  { reason }: DecideDeviation,
): Promise<readonly LedgerRow[]> {
  await countReleased(sql, deviationId)
  const [settled] = await settleTests(sql, context, [test.id], `Released: ${reason}`)
  return settled!.rows
}
