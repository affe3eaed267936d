// Numbers of this file: ends of a summation in doubles (IEEE 754), which bound no result.

import { MethodInputError } from '../../quantity/method-input-error.ts'
import { requirePositive } from './arguments.ts'
import { stirlingRest } from './log-gamma.ts'

/**
 * Regularised incomplete beta function I_x(a, b): the continued fraction of the NIST Digital Library of Mathematical
 * Functions 8.17.22, summed as in Press et al., Numerical Recipes, 3rd ed. 2007, section 6.4 (Lentz's way).
 * `y` is 1 − x, told apart because 1 − x loses the digits of an x close to 1.
 * @throws MethodInputError `not-positive` for parameters of 0 or less, `inconsistent` for an x outside 0 to 1
 */
export function incompleteBeta(a: number, b: number, x: number, y = 1 - x): number {
  requirePositive(a, 'The first parameter of a beta function')
  requirePositive(b, 'The second parameter of a beta function')
  if (!(x >= 0 && y >= 0)) throw new MethodInputError('inconsistent', 'A share must lie between 0 and 1.')
  if (x === 0) return 0
  if (y === 0) return 1
  return x < (a + 1) / (a + b + 2) ? lowerPart(a, b, x, y) : 1 - lowerPart(b, a, y, x)
}

function lowerPart(a: number, b: number, x: number, y: number): number {
  return (powersOverBeta(a, b, x, y) * continuedFraction(a, b, x)) / a
}

/**
 * x^a y^b ÷ B(a, b), arranged around the mean a ÷ (a + b) so that large parameters cost no digits: what Stirling's formula
 * gives of the gamma functions cancels against the powers and is never formed.
 */
function powersOverBeta(a: number, b: number, x: number, y: number): number {
  const sum = a + b
  const centre = a / sum
  const rest = b / sum
  const off = x <= y ? x - centre : rest - y
  const exponent = a * logRatio(x, centre, off) + b * logRatio(y, rest, -off)
  const correction = stirlingRest(sum) - stirlingRest(a) - stirlingRest(b)
  return Math.sqrt((centre * b) / (2 * Math.PI)) * Math.exp(exponent + correction)
}

/** ln(value ÷ centre), by the difference where the two are close. */
function logRatio(value: number, centre: number, difference: number): number {
  const relative = difference / centre
  return Math.abs(relative) < 0.5 ? Math.log1p(relative) : Math.log(value / centre)
}

function continuedFraction(a: number, b: number, x: number): number {
  const floor = 1e-300
  const kept = (value: number) => (Math.abs(value) < floor ? floor : value)
  let c = 1
  let d = 1 / kept(1 - ((a + b) * x) / (a + 1))
  let fraction = d
  for (let m = 1; m <= 100_000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / kept(1 + even * d)
    c = kept(1 + even / c)
    fraction *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / kept(1 + odd * d)
    c = kept(1 + odd / c)
    fraction *= d * c
    if (Math.abs(d * c - 1) <= 2 * Number.EPSILON) return fraction
  }
  throw new MethodInputError('inconsistent', 'These degrees of freedom are too many to compute with.')
}
