// Numbers of this file: ends of a summation in doubles (IEEE 754), which bound no result.

import { MethodInputError } from '../../quantity/method-input-error.ts'
import { requirePositive } from './arguments.ts'
import { stirlingRest } from './log-gamma.ts'

/**
 * Regularised incomplete gamma functions, both tails so that neither is the rest of the other: `lower` P(a, x) by its
 * series, `upper` Q(a, x) by Legendre's continued fraction (NIST Digital Library of Mathematical Functions 8.11.4 and 8.9.2;
 * Press et al., Numerical Recipes, 3rd ed. 2007, section 6.2).
 * @throws MethodInputError `not-positive` for a of 0 or less, `inconsistent` for an x below 0
 */
export function incompleteGamma(a: number, x: number): { readonly lower: number; readonly upper: number } {
  requirePositive(a, 'The shape of a gamma function')
  if (!(x >= 0)) throw new MethodInputError('inconsistent', 'The argument of a gamma function must be 0 or more.')
  if (x === 0) return { lower: 0, upper: 1 }
  if (x === Infinity) return { lower: 1, upper: 0 }
  if (x < a + 1) {
    const lower = powersOverGamma(a, x) * series(a, x)
    return { lower, upper: 1 - lower }
  }
  const upper = powersOverGamma(a, x) * continuedFraction(a, x)
  return { lower: 1 - upper, upper }
}

/** x^a e^(−x) ÷ Γ(a), arranged around x = a so that large shapes cost no digits. */
function powersOverGamma(a: number, x: number): number {
  const off = (x - a) / a
  const exponent = Math.abs(off) < 0.5 ? a * (Math.log1p(off) - off) : a * (Math.log(x / a) - off)
  return Math.sqrt(a / (2 * Math.PI)) * Math.exp(exponent - stirlingRest(a))
}

function series(a: number, x: number): number {
  let term = 1 / a
  let sum = term
  for (let n = 1; n <= 100_000; n += 1) {
    term *= x / (a + n)
    sum += term
    if (term <= sum * Number.EPSILON) return sum
  }
  throw tooMany()
}

function continuedFraction(a: number, x: number): number {
  let b = x + 1 - a
  let c = 1e300
  let d = 1 / b
  let fraction = d
  for (let n = 1; n <= 100_000; n += 1) {
    const numerator = -n * (n - a)
    b += 2
    d = 1 / (numerator * d + b)
    c = b + numerator / c
    fraction *= d * c
    if (Math.abs(d * c - 1) <= 2 * Number.EPSILON) return fraction
  }
  throw tooMany()
}

function tooMany(): MethodInputError {
  return new MethodInputError('inconsistent', 'These degrees of freedom are too many to compute with.')
}
