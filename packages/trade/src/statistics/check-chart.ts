import { plainDigits } from '../quantity/decimal.ts'
import { individualsChart, type ControlLimits } from './individuals-chart.ts'
import { type RunFinding, runFindings, type RunRuleSet } from './run-rules.ts'
import { valueOf } from './values.ts'

/** The longest rule of the set looks at so many points; fewer give no limits worth judging by. Common practice, no source. */
export const fewestChecks = 8

/** Read by the set that quality handbooks name first (Western Electric Company, 1956; from memory, unverified). */
const rules: RunRuleSet = 'Western Electric'

export type CheckChart = {
  readonly individuals: ControlLimits
  readonly movingRange: ControlLimits
  /** Of each value but the first, in order. */
  readonly movingRanges: readonly string[]
  readonly rules: RunRuleSet
  readonly signals: readonly RunFinding[]
}

/**
 * Control chart of repeated checks of one thing, oldest first: individuals and moving ranges of two, limits at three σ from
 * the mean moving range (ASTM E2587; NIST/SEMATECH e-Handbook 6.3.2.2), read by run rules.
 * @returns null for fewer than eight values, and for values that are all the same: they have no scatter
 * @throws MethodInputError `inconsistent` for what is no number
 */
export function checkChart(values: readonly string[]): CheckChart | null {
  if (values.length < fewestChecks) return null
  if (new Set(values.map((value) => plainDigits(valueOf(value)))).size === 1) return null
  const { individuals, movingRange, movingRanges, sigma } = individualsChart(values, 'mean')
  const signals = runFindings(values, individuals.centre, sigma, rules)
  return { individuals, movingRange, movingRanges, rules, signals }
}
