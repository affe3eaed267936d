// Numbers of this file: halves, exact, and spans beyond which a normal tail is nothing to a double (IEEE 754).

import { requireNumber, requireProbability } from '../special/arguments.ts'
import { incompleteGamma } from '../special/incomplete-gamma.ts'
import { rootBetween } from '../special/root.ts'

/** Density of the standard normal distribution. */
export function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)
}

/** P(Z > z) of the standard normal distribution: ½ Q(½, z² ÷ 2), NIST Digital Library of Mathematical Functions 7.11.2. */
export function normalUpperTail(z: number): number {
  requireNumber(z, 'A normal deviate')
  return z < 0 ? 1 - normalUpperTail(-z) : incompleteGamma(0.5, (z * z) / 2).upper / 2
}

/** P(Z ≤ z) of the standard normal distribution. */
export function normalCdf(z: number): number {
  return normalUpperTail(-z)
}

/**
 * The z that a share of the standard normal distribution lies below.
 * @throws MethodInputError `inconsistent` for a share outside 0 to 1
 */
export function normalQuantile(share: number): number {
  requireProbability(share)
  return share > 0.5 ? normalUpperQuantile(1 - share) : 0 - normalUpperQuantile(share)
}

/**
 * The z that a share lies above; small shares keep their digits.
 * @throws MethodInputError `inconsistent` for a share outside 0 to 1
 */
export function normalUpperQuantile(share: number): number {
  requireProbability(share)
  if (share > 0.5) return -normalUpperQuantile(1 - share)
  if (share === 0.5) return 0
  const target = Math.log(share)
  return rootBetween((z) => Math.max(Math.log(normalUpperTail(z)), -1e4) - target, 0, 40)
}
