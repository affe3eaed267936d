// Numbers of this file: spans beyond which a normal density adds nothing to a double (IEEE 754).

import { requireNumber, requireProbability, requireWhole } from '../special/arguments.ts'
import { gaussNodes, lineNodes } from '../special/quadrature.ts'
import { rootBetween } from '../special/root.ts'
import { normalCdf, normalDensity } from './normal.ts'

// The range of n values of a standard normal distribution. Range ÷ σ with σ known is the studentized range with infinitely
// many degrees of freedom. All by numerical integration; nothing is read from a table. About 12 digits.

const line = lineNodes(-9, 9, 0.1).map(({ at, weight }) => ({
  at,
  below: normalCdf(at),
  mass: weight * normalDensity(at),
}))
const largest = 100

/**
 * P(range ≤ w) = n ∫ φ(z) (Φ(z + w) − Φ(z))^(n − 1) dz, z being the smallest of the n (H. A. David and H. N. Nagaraja,
 * Order Statistics, 3rd ed. 2003, section 2.3).
 * @throws MethodInputError `inconsistent` for n that is no whole number from 2 to 100
 */
export function rangeCdf(w: number, n: number): number {
  requireWhole(n, 2, largest, 'The number of values')
  requireNumber(w, 'A range')
  if (w <= 0) return 0
  const sum = line.reduce((total, { at, below, mass }) => total + mass * (normalCdf(at + w) - below) ** (n - 1), 0)
  return Math.min(1, n * sum)
}

/**
 * The range that a share of all samples of n stays within: 0.95 gives the factor by which a standard deviation is multiplied
 * to judge replicates (ASTM C670).
 * @throws MethodInputError `inconsistent` for a share outside 0 to 1 or for n that is no whole number from 2 to 100
 */
export function rangeQuantile(share: number, n: number): number {
  requireProbability(share)
  requireWhole(n, 2, largest, 'The number of values')
  return rootBetween((w) => rangeCdf(w, n) - share, 0, 18)
}

/**
 * Mean range of n values, d2: ∫ 1 − Φ(z)^n − (1 − Φ(z))^n dz (L. H. C. Tippett, Biometrika 17, 1925).
 * @throws MethodInputError `inconsistent` for n that is no whole number from 2 to 100
 */
export function rangeMean(n: number): number {
  requireWhole(n, 2, largest, 'The number of values')
  return line.reduce((total, { below }) => total + 0.1 * (1 - below ** n - (1 - below) ** n), 0)
}

/**
 * Standard deviation of the range of n values, d3: from E(w²) = 2 ∫ w P(range > w) dw.
 * @throws MethodInputError `inconsistent` for n that is no whole number from 2 to 100
 */
export function rangeStandardDeviation(n: number): number {
  const square = gaussNodes(0, 16, 16).reduce(
    (total, { at, weight }) => total + 2 * weight * at * (1 - rangeCdf(at, n)),
    0,
  )
  return Math.sqrt(square - rangeMean(n) ** 2)
}
