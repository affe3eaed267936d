import type { Validation } from '@curebook/contract/validation'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import { runReferenceCases, type ReferenceCaseRow } from '@curebook/trade/procedure/reference-cases'
import { caseInputs } from '@curebook/trade/procedure/worked-example'
import { builtInReferenceCases } from '@curebook/trade/reference-cases/built-in'
import type { Clock } from '#platform/clock'
import { outcomeWords } from './validation-words.ts'

export type ValidationService = ReturnType<typeof createValidationService>

/** Runs every reference case on this installation: what went in, what was expected, what came out, with which version. */
export function createValidationService({
  clock,
  methods,
  build,
}: {
  clock: Clock
  methods: readonly MethodDeclaration[]
  build: string
}) {
  function run(): Validation {
    const rows = runReferenceCases(methods, builtInReferenceCases).map((row) => {
      const method = methodByKey(methods, row.method)
      const { outcome, ...told } = method === undefined ? row : outcomeWords(method, row)
      return {
        method: method?.name ?? row.method,
        title: row.title,
        source: sourceOf(row),
        inputs: method === undefined ? [] : inputsOf(method, row.case),
        expected: told.expected,
        obtained: told.obtained,
        unit: outcome,
        tolerance: row.tolerance,
        agrees: row.agrees,
        computation: row.computation ?? 0,
      }
    })
    const agreeing = rows.filter(({ agrees }) => agrees).length
    return {
      at: clock.now().toISOString(),
      version: build,
      node: process.version,
      rows,
      agreeing,
      differing: rows.length - agreeing,
    }
  }
  return { run }
}

/** Where a case is from; of one that says so itself, it is not said twice. */
function sourceOf({ source, kind }: ReferenceCaseRow): string {
  return source.toLowerCase().includes(kind) ? source : `${source} (${kind})`
}

function inputsOf(method: MethodDeclaration, id: string): Validation['rows'][number]['inputs'] {
  const files = builtInReferenceCases.filter((file) => file.method === method.key)
  const item = files.flatMap(({ cases }) => cases).find((one) => one.id === id)
  if (item === undefined) return []
  return caseInputs(method, item).map(({ name, value, unit }) => ({
    name,
    value: unit === null || unit === '' ? value : `${value} ${writtenUnit(unit)}`,
  }))
}
