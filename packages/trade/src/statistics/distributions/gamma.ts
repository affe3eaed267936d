import { requirePositive, requireProbability } from '../special/arguments.ts'
import { incompleteGamma } from '../special/incomplete-gamma.ts'
import { quantileOf } from '../special/root.ts'

/**
 * P(X ≤ x) of the gamma distribution with this shape and scale.
 * @throws MethodInputError `not-positive` for a shape or scale of 0 or less, `inconsistent` for an x below 0
 */
export function gammaCdf(x: number, shape: number, scale = 1): number {
  requirePositive(scale, 'The scale of a gamma distribution')
  return incompleteGamma(shape, x / scale).lower
}

/**
 * The x that a share of the gamma distribution lies below; solved over ln x.
 * @throws MethodInputError `inconsistent` for a share outside 0 to 1, `not-positive` for a shape or scale of 0 or less
 */
export function gammaQuantile(share: number, shape: number, scale = 1): number {
  requireProbability(share)
  requirePositive(scale, 'The scale of a gamma distribution')
  return scale * Math.exp(quantileOf((logX) => incompleteGamma(shape, Math.exp(logX)), share, 1 - share))
}

/** P(χ² > x): the gamma distribution of shape ν ÷ 2 and scale 2. */
export function chiSquareUpperTail(x: number, degreesOfFreedom: number): number {
  return incompleteGamma(degreesOfFreedom / 2, x / 2).upper
}
