import { Decimal, plainDigits } from '../quantity/decimal.ts'
import type { Curve } from './curve.ts'

/** The contents at which every tested curve has results. */
export type TestedSpan = {
  /** Least and greatest mean content as weighed, residual binder. */
  readonly from: string
  readonly to: string
  /** Their targets, emulsion in % of dry aggregate, from lean to rich. */
  readonly emulsionPercents: readonly string[]
}

/** The span of contents tested by all curves that have results, or null when they share none. */
export function testedSpan(curves: readonly Curve[]): TestedSpan | null {
  const tested = curves.filter(({ means }) => means.length > 0)
  const shared = (tested[0]?.means ?? []).filter(({ mixId }) =>
    tested.every(({ means }) => means.some((mean) => mean.mixId === mixId)),
  )
  const mixes = new Set(shared.map(({ mixId }) => mixId))
  const contents = tested.flatMap(({ means }) => means.filter(({ mixId }) => mixes.has(mixId)).map(({ x }) => x))
  if (contents.length === 0) return null
  return {
    from: plainDigits(Decimal.min(...contents)),
    to: plainDigits(Decimal.max(...contents)),
    emulsionPercents: shared.map(({ emulsionPercent }) => emulsionPercent),
  }
}
