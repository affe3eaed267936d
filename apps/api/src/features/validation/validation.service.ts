import type { Validation } from '@curebook/contract/validation'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { runReferenceCases } from '@curebook/trade/procedure/reference-cases'
import { builtInReferenceCases } from '@curebook/trade/reference-cases/built-in'
import type { Clock } from '#platform/clock'

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
    const rows = runReferenceCases(methods, builtInReferenceCases).map((row) => ({
      method: row.method,
      title: row.title,
      source: `${row.source} (${row.kind})`,
      inputs: row.inputs.map((input) => ({
        name: input.slice(0, input.lastIndexOf(' ', input.lastIndexOf(' ') - 1)),
        value: lastTwoWords(input),
      })),
      expected: row.expected,
      obtained: row.obtained,
      unit: row.outcome,
      tolerance: row.tolerance,
      agrees: row.agrees,
      computation: row.computation ?? 0,
    }))
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

/** "812.4 g" of "weigh-before mass 812.4 g": value and unit stand last. */
function lastTwoWords(input: string): string {
  return input.slice(input.lastIndexOf(' ', input.lastIndexOf(' ') - 1) + 1)
}
