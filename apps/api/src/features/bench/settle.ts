import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { LedgerRow } from '#platform/ledger-content'
import { writeProjections } from './projection-writer.ts'
import { standingResults, writeResults } from './result-writer.ts'
import type { RowsSql } from '#platform/sql-rows'
import { standingOf, type Standing } from './standing.ts'
import { endedStates, type TestRecord } from './test-record.ts'
import { castFrom, loadTests } from './test-record.repository.ts'
import { topicsOf } from './topics.ts'
import { standingOutcomes, writeOutcomes } from './window-writer.ts'

export type SettleContext = { readonly methods: readonly MethodDeclaration[]; readonly build: string }
export type SettledTest = {
  readonly record: TestRecord
  readonly standing: Standing
  readonly rows: readonly LedgerRow[]
  /** Tests that were settled with it, since they take its weighings: their screens hear of it too. */
  readonly casts: readonly string[]
}

/** @throws Error when a stored test names a method that this build does not have */
export function methodOf(methods: readonly MethodDeclaration[], key: string): MethodDeclaration {
  const method = methodByKey(methods, key)
  if (!method) throw new Error(`Test method ${key} is not part of this build`)
  return method
}

/**
 * After any act on tests, in the same transaction and under their locks: judges windows, computes results, moves the
 * projections. The records are loaded anew, so that what was just written is seen. After an act on a batch, what is cast from
 * it is settled with it where its formula takes the batch's weighings.
 * @param reason why results change, kept with every superseded one
 * @returns each test with the rows that the act's ledger entry must hold; those of what is cast from a batch stand with it
 */
export async function settleTests(
  sql: RowsSql,
  context: SettleContext,
  testIds: readonly string[],
  reason: string,
): Promise<readonly SettledTest[]> {
  const settled = await settleThese(sql, context, testIds, reason)
  const batches = settled.filter(({ record }) => record.methodKey === 'batch').map(({ record }) => record.id)
  const takers = context.methods.filter(({ batchReadings }) => batchReadings).map(({ key }) => key)
  if (batches.length === 0 || takers.length === 0) return settled
  const cast = (await castFrom(sql, batches, takers)).filter(({ testId }) => !testIds.includes(testId))
  if (cast.length === 0) return settled
  const casts = await settleThese(
    sql,
    context,
    cast.map(({ testId }) => testId),
    reason,
  )
  return settled.map((one) => {
    const own = casts.filter(({ record }) =>
      cast.some(({ testId, batchTestId }) => testId === record.id && batchTestId === one.record.id),
    )
    return {
      ...one,
      rows: [...one.rows, ...own.flatMap(({ rows }) => rows)],
      casts: own.map(({ record }) => record.id),
    }
  })
}

/**
 * For an act that comes a second time: nothing new stands, and yet this build may find another result in it than the one that
 * the act met first. What is written then has an entry of its own.
 */
export async function settleAgain(sql: RowsSql, context: SettleContext, record: TestRecord): Promise<SettledTest> {
  const [settled] = await settleTests(sql, context, [record.id], 'Settled again')
  const { rows, casts } = settled!
  if (rows.length > 0)
    sql.record({
      action: 'result:recompute',
      subjectKind: 'test_event',
      subjectId: record.id,
      projectId: record.projectId,
      topics: topicsOf(record, casts),
      rows: [...rows],
    })
  return settled!
}

async function settleThese(
  sql: RowsSql,
  { methods, build }: SettleContext,
  testIds: readonly string[],
  reason: string,
): Promise<readonly SettledTest[]> {
  const [records, results, outcomes] = await Promise.all([
    loadTests(sql, testIds),
    standingResults(sql, testIds),
    standingOutcomes(sql, testIds),
  ])
  const settled: SettledTest[] = []
  for (const record of records) {
    const method = methodOf(methods, record.methodKey)
    const standing = standingOf(method, record, sql.at.toISOString())
    const rows: LedgerRow[] = []
    if (!endedStates.includes(record.state)) {
      rows.push(...(await writeOutcomes(sql, { record, windows: standing.windows, stored: outcomes })))
      const stored = results.filter(({ testId }) => testId === record.id)
      rows.push(
        ...(await writeResults(sql, { record, method, evaluation: standing.evaluation, stored, reason, build })),
      )
    }
    await writeProjections(sql, record, standing)
    settled.push({ record, standing, rows, casts: [] })
  }
  return settled
}
