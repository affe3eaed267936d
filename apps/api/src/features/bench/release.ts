import type { DecideDeviation, Waiting } from '@curebook/contract/deviations'
import { AppError, invalidField } from '#platform/problem'
import type { RowsSql } from '#platform/sql-rows'
import { countReleased } from './holds.repository.ts'
import { settleTests, type SettleContext, type SettledTest } from './settle.ts'
import type { TestRecord } from './test-record.ts'

/**
 * Readings that wait are released or left out by somebody who may, exactly as they were shown; they are not accepted past
 * it. Where nothing waits there is nothing to release.
 */
export function refuseWaiting(input: DecideDeviation, waiting: Waiting | undefined, isOfTest: boolean): void {
  if (input.kind === 'exclude' && (isOfTest || !waiting))
    throw invalidField('kind', 'Only readings of a load that wait can be left out. Void the specimen, or accept it.')
  if (input.kind === 'release' && !waiting)
    throw invalidField('kind', 'No reading waits under this deviation. Accept it with a reason.')
  if (input.kind === 'accept' && waiting)
    throw invalidField(
      'kind',
      `Its readings do not count yet: release them with a reason, or ${isOfTest ? 'void the specimen' : 'leave them out'}.`,
    )
  // Leaving out is as much a word on readings as releasing: neither blindly, nor on one's own alone.
  if ((input.kind !== 'release' && input.kind !== 'exclude') || !waiting) return
  if (!waiting.mayRelease) throw new AppError('refused-by-rule', waiting.sentence)
  const shown = new Set(input.readingIds ?? [])
  if (shown.size !== waiting.readingIds.length || waiting.readingIds.some((id) => !shown.has(id)))
    throw new AppError(
      'changed-meanwhile',
      'Other readings wait under this deviation than were shown to you. Look at them, then decide.',
      { extra: { stored: waiting, sent: input } },
    )
}

/**
 * The readings count: the test is settled again, and its result appears; what was read of a load is judged when it is looked
 * at. @returns the test as settled, with rows for the decision's ledger entry; undefined where it is about no test
 */
export async function release(
  sql: RowsSql,
  context: SettleContext,
  deviationId: string,
  test: TestRecord | undefined,
  { reason }: DecideDeviation,
): Promise<SettledTest | undefined> {
  await countReleased(sql, deviationId)
  if (!test) return undefined
  const [settled] = await settleTests(sql, context, [test.id], `Released: ${reason}`)
  return settled
}
