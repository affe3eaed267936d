import { expect, test } from 'vitest'
import { incompleteBeta } from './incomplete-beta.ts'
import { incompleteGamma } from './incomplete-gamma.ts'
import { logGamma } from './log-gamma.ts'
import { gaussNodes, lineNodes } from './quadrature.ts'
import { rootBetween } from './root.ts'

function near(value: number, known: number, relative = 1e-13) {
  expect(Math.abs(value - known)).toBeLessThanOrEqual(relative * Math.abs(known))
}

test('ln Γ of whole and half numbers is known in closed form', () => {
  let factorial = 1
  for (let n = 2; n <= 20; n += 1) {
    factorial *= n
    near(logGamma(n + 1), Math.log(factorial))
  }
  near(logGamma(0.5), Math.log(Math.PI) / 2)
  near(logGamma(2.5), Math.log((3 / 4) * Math.sqrt(Math.PI)))
  expect(Math.abs(logGamma(1))).toBeLessThan(1e-14)
})

test('ln Γ is one curve where Lanczos and Stirling meet, and obeys Γ(x + 1) = x Γ(x)', () => {
  for (const x of [0.01, 0.3, 1.7, 8.99, 9, 9.5, 9.999, 10, 123.4])
    near(logGamma(x + 1), logGamma(x) + Math.log(x), 1e-13)
})

test('incomplete beta: the closed forms for b = 1, for a = b = ½ and for whole parameters', () => {
  for (const x of [1e-9, 0.1, 0.5, 0.73, 0.999]) {
    near(incompleteBeta(3.3, 1, x), x ** 3.3)
    near(incompleteBeta(0.5, 0.5, x), (2 / Math.PI) * Math.asin(Math.sqrt(x)))
    near(incompleteBeta(2, 3, x), x * x * (6 - 8 * x + 3 * x * x))
  }
})

test('incomplete beta with large parameters keeps its digits: both tails are one', () => {
  for (const a of [1e3, 1e5, 1e6])
    for (const x of [0.499, 0.5, 0.5005]) near(incompleteBeta(a, a, x) + incompleteBeta(a, a, 1 - x), 1, 1e-12)
})

test('incomplete gamma: the exponential distribution and its sums', () => {
  for (const x of [1e-6, 0.4, 1, 3, 30, 200]) {
    near(incompleteGamma(1, x).lower, -Math.expm1(-x))
    near(incompleteGamma(1, x).upper, Math.exp(-x), 1e-12)
    near(incompleteGamma(3, x).upper, Math.exp(-x) * (1 + x + (x * x) / 2), 1e-12)
  }
  expect(incompleteGamma(2, 0)).toEqual({ lower: 0, upper: 1 })
})

test('Gauss–Legendre is exact for polynomials, equal steps for what falls off like the normal density', () => {
  const integral = gaussNodes(-1, 3, 2).reduce((sum, { at, weight }) => sum + weight * at ** 30, 0)
  near(integral, (3 ** 31 + 1) / 31)
  near(
    lineNodes(-9, 9, 0.25).reduce((sum, { at, weight }) => sum + weight * Math.exp(-at * at), 0),
    Math.sqrt(Math.PI),
  )
})

test('a root is found to the last digits, and refused where there is none', () => {
  near(
    rootBetween((x) => x ** 3 - 2, 0, 5),
    Math.cbrt(2),
    1e-15,
  )
  near(
    rootBetween((x) => Math.cos(x) - x, 0, 1),
    0.7390851332151607,
    1e-15,
  )
  expect(() => rootBetween((x) => x * x + 1, 0, 5)).toThrow(expect.objectContaining({ code: 'inconsistent' }))
})

test('parameters that cannot be are refused', () => {
  expect(() => logGamma(0)).toThrow(expect.objectContaining({ code: 'not-positive' }))
  expect(() => incompleteBeta(1, -1, 0.5)).toThrow(expect.objectContaining({ code: 'not-positive' }))
  expect(() => incompleteBeta(1, 1, 1.5)).toThrow(expect.objectContaining({ code: 'inconsistent' }))
  expect(() => incompleteGamma(1, -1)).toThrow(expect.objectContaining({ code: 'inconsistent' }))
  expect(() => incompleteGamma(1, Number.NaN)).toThrow(expect.objectContaining({ code: 'inconsistent' }))
})
