import { MethodInputError } from '../quantity/method-input-error.ts'
import { normalCdf } from './distributions/normal.ts'
import { doubleDigits, positiveOf, valueOf } from './values.ts'

/**
 * Chance that the true value lies within the limits held, the result's uncertainty taken as normal (JCGM 106:2012, section 7).
 * On a limit it is a half: simple acceptance passes it, a guard band of U with k = 2 stands where it is 97.7 %.
 * @throws MethodInputError `missing-setup` without any limit, `not-positive` for a standard uncertainty of 0 or less,
 * `inconsistent` for what is no number
 */
export function conformityProbability(
  result: { readonly value: string; readonly standardUncertainty: string },
  limits: { readonly lower?: string | null; readonly upper?: string | null },
): string {
  if (!limits.lower && !limits.upper)
    throw new MethodInputError('missing-setup', 'There is no limit to hold the result against: give one or both ends.')
  const value = valueOf(result.value, 'The result')
  const uncertainty = positiveOf(result.standardUncertainty, 'The standard uncertainty')
  const deviations = (limit: string, label: string) => valueOf(limit, label).minus(value).div(uncertainty).toNumber()
  const below = limits.lower ? normalCdf(deviations(limits.lower, 'The lower limit')) : 0
  const above = limits.upper ? normalCdf(-deviations(limits.upper, 'The upper limit')) : 0
  return doubleDigits(Math.max(0, 1 - below - above))
}
