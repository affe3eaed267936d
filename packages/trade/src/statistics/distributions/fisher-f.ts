import { requirePositive, requireProbability } from '../special/arguments.ts'
import { incompleteBeta } from '../special/incomplete-beta.ts'
import { quantileOf } from '../special/root.ts'
import { MethodInputError } from '../../quantity/method-input-error.ts'

/**
 * P(F ≤ f) and P(F > f) of the F distribution by the incomplete beta function (Abramowitz and Stegun 26.6.2).
 * @throws MethodInputError `not-positive` for degrees of freedom of 0 or less, `inconsistent` for an f below 0
 */
export function fTails(f: number, d1: number, d2: number): { readonly lower: number; readonly upper: number } {
  requirePositive(d1, 'Degrees of freedom')
  requirePositive(d2, 'Degrees of freedom')
  if (!(f >= 0)) throw new MethodInputError('inconsistent', 'A ratio of variances must be 0 or more.')
  const ratio = (d1 / d2) * f
  const x = ratio === Infinity ? 1 : ratio / (1 + ratio)
  const y = 1 / (1 + ratio)
  return { lower: incompleteBeta(d1 / 2, d2 / 2, x, y), upper: incompleteBeta(d2 / 2, d1 / 2, y, x) }
}

/**
 * The F that a share lies above: 0.005 for the critical value at 0.5 %.
 * @throws MethodInputError `inconsistent` for a share outside 0 to 1, `not-positive` for degrees of freedom of 0 or less
 */
export function fUpperQuantile(share: number, d1: number, d2: number): number {
  requireProbability(share)
  return Math.exp(quantileOf((logF) => fTails(Math.exp(logF), d1, d2), 1 - share, share))
}
