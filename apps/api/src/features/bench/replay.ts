import type { Calculation } from '@curebook/trade/procedure/calculation'
import { checkCalculation } from '@curebook/trade/procedure/calculation-checker'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { RowsSql } from '#platform/sql-rows'
import { changesOf, standingResults } from './result-writer.ts'
import { standingOf } from './standing.ts'
import { methodOf } from './settle.ts'
import { endedStates } from './test-record.ts'
import { loadTests } from './test-record.repository.ts'

export type ReplayDifference = {
  readonly testId: string
  readonly label: string
  readonly code: string
  readonly key: string
  readonly stored: string
  readonly present: string
}
export type Replay = {
  readonly results: number
  readonly calculations: number
  readonly differences: readonly ReplayDifference[]
  readonly faults: readonly { readonly resultId: string; readonly symbols: readonly string[] }[]
}

const pageSize = 200

/**
 * Computes every standing result of the laboratory again with the present methods, and re-evaluates every stored
 * calculation, superseded ones included, with the checker that shares no code with them.
 */
export async function replayResults(sql: RowsSql, methods: readonly MethodDeclaration[]): Promise<Replay> {
  const ids = (
    await sql.rows<{ id: string }>('select id from test_event where lab_id = $1::uuid order by id', [sql.actor.labId])
  ).map(({ id }) => id)
  const differences: ReplayDifference[] = []
  let results = 0
  for (let start = 0; start < ids.length; start += pageSize) {
    const page = ids.slice(start, start + pageSize)
    const stored = await standingResults(sql, page)
    results += stored.length
    for (const record of await loadTests(sql, page)) {
      if (endedStates.includes(record.state)) continue
      const own = stored.filter(({ testId }) => testId === record.id)
      const { evaluation } = standingOf(methodOf(methods, record.methodKey), record, sql.at.toISOString())
      for (const { outcome, supersedes } of changesOf(evaluation, own))
        differences.push({
          testId: record.id,
          label: record.label,
          code: record.code,
          key: 'unit' in outcome && outcome.unit ? `${outcome.key}, ${outcome.unit}` : outcome.key,
          stored: supersedes
            ? (supersedes.valueText ?? supersedes.choice ?? `refused: ${supersedes.refusalCode}`)
            : 'nothing',
          present:
            'value' in outcome ? outcome.value : 'choice' in outcome ? outcome.choice : `refused: ${outcome.code}`,
        })
    }
  }
  const { calculations, faults } = await checkStored(sql)
  return { results, calculations, differences, faults }
}

async function checkStored(sql: RowsSql): Promise<Pick<Replay, 'calculations' | 'faults'>> {
  const rows = await sql.rows<{ resultId: string; body: string; value: string | null }>(
    'select c.result_id as "resultId", c.body, r.value_text as value from calculation c join result r on r.lab_id = c.lab_id and r.id = c.result_id where c.lab_id = $1::uuid',
    [sql.actor.labId],
  )
  const faults = rows.flatMap(({ resultId, body, value }) => {
    const symbols = checkCalculation(JSON.parse(body) as Calculation, value ?? undefined).map(({ symbol }) => symbol)
    return symbols.length > 0 ? [{ resultId, symbols }] : []
  })
  return { calculations: rows.length, faults }
}
