import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { LedgerRow } from '#platform/ledger-content'
import { writeProjections } from './projection-writer.ts'
import { standingResults, writeResults } from './result-writer.ts'
import type { RowsSql } from '#platform/sql-rows'
import { standingOf, type Standing } from './standing.ts'
import { endedStates, type TestRecord } from './test-record.ts'
import { loadTests } from './test-record.repository.ts'
import { standingOutcomes, writeOutcomes } from './window-writer.ts'

export type SettleContext = { readonly methods: readonly MethodDeclaration[]; readonly build: string }
export type SettledTest = {
  readonly record: TestRecord
  readonly standing: Standing
  readonly rows: readonly LedgerRow[]
}

/** @throws Error when a stored test names a method that this build does not have */
export function methodOf(methods: readonly MethodDeclaration[], key: string): MethodDeclaration {
  const method = methodByKey(methods, key)
  if (!method) throw new Error(`Test method ${key} is not part of this build`)
  return method
}

/**
 * After any act on tests, in the same transaction and under their locks: judges windows, computes results, moves the
 * projections. The records are loaded anew, so that what was just written is seen.
 * @param reason why results change, kept with every superseded one
 * @returns each test with the rows that the act's ledger entry must hold
 */
export async function settleTests(
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
    settled.push({ record, standing, rows })
  }
  return settled
}
