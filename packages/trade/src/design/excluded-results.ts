import type { Calculation } from '../procedure/calculation.ts'
import { createCalculation } from '../procedure/calculation-builder.ts'
import { decimal } from '../quantity/decimal.ts'
import type { CurveMean } from './curve.ts'

/** A result that stands in the record and does not count: of a void specimen, or of a spare in nobody's place. */
export type ExcludedResult = {
  readonly resultId: string
  readonly label: string
  readonly mixId: string
  readonly emulsionPercent: string
  readonly y: string
}

/** The mean of one content as it counts, and as it would be with everything that does not. */
export type MeanWithExcluded = {
  readonly mixId: string
  readonly emulsionPercent: string
  /** Null where nothing of this content counts. */
  readonly counting: { readonly y: string; readonly n: number } | null
  readonly withExcluded: { readonly y: string; readonly n: number }
  /** Of the mean with them. */
  readonly calculation: Calculation
}

/** Both means of every content at which a result does not count, from lean to rich. Neither line nor range uses the second. */
export function meansWithExcluded(
  { label, unit, means }: { readonly label: string; readonly unit: string; readonly means: readonly CurveMean[] },
  excluded: readonly ExcludedResult[],
): readonly MeanWithExcluded[] {
  const contents = new Map(excluded.map(({ mixId, emulsionPercent }) => [mixId, emulsionPercent]))
  return [...contents]
    .sort(([, a], [, b]) => decimal(a).cmp(b))
    .map(([mixId, emulsionPercent]) => {
      const mean = means.find((one) => one.mixId === mixId)
      const values = [
        ...(mean?.points ?? []).map(({ resultId, label: name, y }) => ({ resultId, name, y })),
        ...excluded
          .filter((one) => one.mixId === mixId)
          .map(({ resultId, label: name, y }) => ({ resultId, name: `${name}, which does not count`, y })),
      ]
      const work = createCalculation()
      values.forEach(({ resultId, name, y }, index) => {
        const text = { symbol: `y${index + 1}`, name: `${label}, ${name}`, unit, source: 'result of the specimen' }
        work.input(text, y, { kind: 'result', id: resultId })
      })
      const text = { symbol: 'Y', name: `Mean at ${emulsionPercent} % emulsion with what does not count`, unit }
      work.mean({ ...text, source: 'arithmetic mean of the replicates' }, ...values.map((_, index) => `y${index + 1}`))
      const calculation = work.calculation()
      return {
        mixId,
        emulsionPercent,
        counting: mean ? { y: mean.y, n: mean.n } : null,
        withExcluded: { y: calculation.lines.at(-1)?.value ?? '', n: values.length },
        calculation,
      }
    })
}
