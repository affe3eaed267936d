// Numbers of this file: halves, exact.

import { requireNumber, requirePositive, requireProbability } from '../special/arguments.ts'
import { incompleteBeta } from '../special/incomplete-beta.ts'
import { quantileOf } from '../special/root.ts'
import { normalUpperQuantile, normalUpperTail } from './normal.ts'

/**
 * P(T > t) of Student's distribution: ½ I_x(ν ÷ 2, ½) with x = ν ÷ (ν + t²) (Abramowitz and Stegun 26.7.1). Infinitely many
 * degrees of freedom make it the normal distribution.
 * @throws MethodInputError `not-positive` for degrees of freedom of 0 or less
 */
export function tUpperTail(t: number, degreesOfFreedom: number): number {
  requireNumber(t, 'A t value')
  if (degreesOfFreedom === Infinity) return normalUpperTail(t)
  requirePositive(degreesOfFreedom, 'Degrees of freedom')
  if (t < 0) return 1 - tUpperTail(-t, degreesOfFreedom)
  const square = (t / degreesOfFreedom) * t
  const x = 1 / (1 + square)
  const y = square === Infinity ? 1 : square / (1 + square)
  return incompleteBeta(degreesOfFreedom / 2, 0.5, x, y) / 2
}

/** P(T ≤ t) of Student's distribution. */
export function tCdf(t: number, degreesOfFreedom: number): number {
  return tUpperTail(-t, degreesOfFreedom)
}

/**
 * The t that a share lies above: 0.025 for a two-sided interval of 95 %.
 * @throws MethodInputError `inconsistent` for a share outside 0 to 1, `not-positive` for degrees of freedom of 0 or less
 */
export function tUpperQuantile(share: number, degreesOfFreedom: number): number {
  requireProbability(share)
  if (degreesOfFreedom === Infinity) return normalUpperQuantile(share)
  requirePositive(degreesOfFreedom, 'Degrees of freedom')
  if (share > 0.5) return -tUpperQuantile(1 - share, degreesOfFreedom)
  if (share === 0.5) return 0
  // |t| is a positive number: its upper tail is twice the share. Solved over ln |t|.
  const tails = (logT: number) => {
    const upper = 2 * tUpperTail(Math.exp(logT), degreesOfFreedom)
    return { lower: 1 - upper, upper }
  }
  const twice = 2 * share
  return Math.exp(quantileOf(tails, 1 - twice, twice))
}

/** The t that a share lies below. */
export function tQuantile(share: number, degreesOfFreedom: number): number {
  return 0 - tUpperQuantile(share, degreesOfFreedom)
}
