import { rangeMean, rangeStandardDeviation } from './distributions/normal-range.ts'
import { normalQuantile } from './distributions/normal.ts'
import { requireWhole } from './special/arguments.ts'
import { logGamma } from './special/log-gamma.ts'

/** Factors of Shewhart's charts for subgroups of n (ASTM E2587; relations as there), computed, not read from a table. */
export type ControlChartConstants = {
  readonly n: number
  /** Mean and standard deviation of the range of n values, in σ. */
  readonly d2: number
  readonly d3: number
  /** Mean of the standard deviation of n values, in σ: √(2 ÷ (n − 1)) Γ(n/2) ÷ Γ((n − 1)/2). */
  readonly c4: number
  readonly A2: number
  readonly A3: number
  readonly B3: number
  readonly B4: number
  readonly D3: number
  readonly D4: number
  /** 3 ÷ d2, for individuals. */
  readonly E2: number
}

const computed = new Map<number, ControlChartConstants>()

/** @throws MethodInputError `inconsistent` for n that is no whole number from 2 to 100 */
export function controlChartConstants(n: number): ControlChartConstants {
  requireWhole(n, 2, 100, 'The size of a subgroup')
  const known = computed.get(n)
  if (known !== undefined) return known
  const d2 = rangeMean(n)
  const d3 = rangeStandardDeviation(n)
  const c4 = Math.sqrt(2 / (n - 1)) * Math.exp(logGamma(n / 2) - logGamma((n - 1) / 2))
  // Limits of 3 σ, by definition of these charts (ASTM E2587).
  const spread = (3 * Math.sqrt(1 - c4 * c4)) / c4
  // Limits of 3 σ, by definition of these charts (ASTM E2587).
  const constants = {
    n,
    d2,
    d3,
    c4,
    A2: 3 / (d2 * Math.sqrt(n)),
    A3: 3 / (c4 * Math.sqrt(n)),
    B3: Math.max(0, 1 - spread),
    B4: 1 + spread,
    D3: Math.max(0, 1 - (3 * d3) / d2),
    D4: 1 + (3 * d3) / d2,
    E2: 3 / d2,
  }
  computed.set(n, constants)
  return constants
}

/** Median of the range of two values, by definition, in σ: √2 z(0.75) = 0.954, for charts by the median moving range. */
export const medianRangeOfTwo = Math.SQRT2 * normalQuantile(0.75)
