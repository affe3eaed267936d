import { requireProbability } from '../special/arguments.ts'
import { incompleteBeta } from '../special/incomplete-beta.ts'
import { quantileOf } from '../special/root.ts'

/**
 * P(X ≤ x) of the beta distribution.
 * @throws MethodInputError `not-positive` for parameters of 0 or less, `inconsistent` for an x outside 0 to 1
 */
export function betaCdf(x: number, a: number, b: number): number {
  return incompleteBeta(a, b, x)
}

/**
 * The x that a share of the beta distribution lies below; solved over ln(x ÷ (1 − x)).
 * @throws MethodInputError `inconsistent` for a share outside 0 to 1, `not-positive` for parameters of 0 or less
 */
export function betaQuantile(share: number, a: number, b: number): number {
  requireProbability(share)
  const odds = quantileOf(
    (logOdds) => {
      const x = 1 / (1 + Math.exp(-logOdds))
      const y = 1 / (1 + Math.exp(logOdds))
      return { lower: incompleteBeta(a, b, x, y), upper: incompleteBeta(b, a, y, x) }
    },
    share,
    1 - share,
  )
  return 1 / (1 + Math.exp(-odds))
}
