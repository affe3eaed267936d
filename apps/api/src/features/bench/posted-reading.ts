import type { PostedReading } from '@curebook/contract/bench'
import { readingViews } from './reading-view.ts'
import { resultBriefs } from './result-view.ts'
import { methodOf, type SettleContext, type SettledTest } from './settle.ts'
import type { RowsSql } from '#platform/sql-rows'
import { suspicionsAbout } from './suspicions.ts'
import { findHolding } from './holds.repository.ts'
import { deviationsOf } from './test-view.repository.ts'
import { waitingUnder } from './waiting.ts'
import { toWindowState } from './window-view.ts'

/** The answer to a reading: itself as stored, and what it set in motion. */
export async function postedReading(
  sql: RowsSql,
  { methods }: SettleContext,
  { record, standing }: SettledTest,
  readingId: string,
): Promise<PostedReading> {
  const method = methodOf(methods, record.methodKey)
  const [readings, results, suspicions] = await Promise.all([
    readingViews(sql, { ids: [readingId] }),
    resultBriefs(sql, methods, [record.id]),
    suspicionsAbout(sql, method, record),
  ])
  const holding = readings[0]!.waits ? await findHolding(sql, readingId) : []
  const [deviations, waiting] =
    holding.length === 0 ? [[], new Map()] : [await deviationsOf(sql, record.id), await waitingUnder(sql, holding)]
  return {
    reading: readings[0]!,
    results: results.map(({ testId: _, ...brief }) => brief),
    suspicions,
    testState: standing.state as PostedReading['testState'],
    windows: standing.windows.map(toWindowState),
    waits: holding.map((deviationId) => ({
      deviationId,
      text: deviations.find(({ id }) => id === deviationId)?.text ?? '',
      sentence: waiting.get(deviationId)?.sentence ?? '',
    })),
  }
}
