// Numbers of this file: closed forms, exact, and the series named beside them; checked in tests/published.

import { requirePositive } from './arguments.ts'

const halfLogTwoPi = 0.9189385332046727

const lanczosShift = 5.2421875 // 607/128, exactly

// Lanczos 1964, "A precision approximation of the gamma function"; the 14 coefficients for g = 607/128 are P. Godfrey's,
// as printed in Press et al., Numerical Recipes, 3rd ed. 2007, section 6.1.
const lanczos = [
  57.1562356658629235, -59.5979603554754912, 14.1360979747417471, -0.491913816097620199, 0.339946499848118887e-4,
  0.465236289270485756e-4, -0.983744753048795646e-4, 0.158088703224912494e-3, -0.210264441724104883e-3,
  0.217439618115212643e-3, -0.16431810653676389e-3, 0.844182239838527433e-4, -0.26190838401581408e-4,
  0.368991826595316234e-5,
] as const

// Stirling's series, NIST Digital Library of Mathematical Functions 5.11.1: B(2k) ÷ (2k (2k − 1) x^(2k − 1)).
const stirling = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156] as const

/**
 * ln Γ(x) for x > 0: Lanczos below 10, Stirling from there on; about 15 digits.
 * @throws MethodInputError `not-positive` for x of 0 or less
 */
export function logGamma(x: number): number {
  requirePositive(x, 'The argument of the gamma function')
  if (x >= 10) return (x - 0.5) * Math.log(x) - x + halfLogTwoPi + stirlingRest(x)
  const base = x + lanczosShift
  const sum = lanczos.reduce((total, coefficient, index) => total + coefficient / (x + index + 1), 0.999999999999997092)
  return (x + 0.5) * Math.log(base) - base + halfLogTwoPi + Math.log(sum / x)
}

/** What Stirling's formula (x − ½) ln x − x + ½ ln 2π leaves of ln Γ(x), for x > 0. */
export function stirlingRest(x: number): number {
  if (x < 10) return logGamma(x) - ((x - 0.5) * Math.log(x) - x + halfLogTwoPi)
  const square = x * x
  return stirling.reduceRight((total, coefficient) => total / square + coefficient, 0) / x
}
