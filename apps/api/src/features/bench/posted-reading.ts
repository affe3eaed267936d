import type { PostedReading } from '@curebook/contract/bench'
import { readingViews } from './reading-view.ts'
import { resultBriefs } from './result-view.ts'
import { methodOf, type SettleContext, type SettledTest } from './settle.ts'
import type { RowsSql } from '#platform/sql-rows'
import { suspicionsAbout } from './suspicions.ts'
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
  return {
    reading: readings[0]!,
    results: results.map(({ testId: _, ...brief }) => brief),
    suspicions,
    testState: standing.state as PostedReading['testState'],
    windows: standing.windows.map(toWindowState),
  }
}
