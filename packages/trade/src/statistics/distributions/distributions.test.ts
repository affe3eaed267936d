import fc from 'fast-check'
import { expect, test } from 'vitest'
import { betaCdf, betaQuantile } from './beta.ts'
import { fTails, fUpperQuantile } from './fisher-f.ts'
import { chiSquareUpperTail, gammaCdf, gammaQuantile } from './gamma.ts'
import { normalCdf, normalQuantile, normalUpperQuantile, normalUpperTail } from './normal.ts'
import { rangeCdf, rangeMean, rangeQuantile, rangeStandardDeviation } from './normal-range.ts'
import { tCdf, tQuantile, tUpperQuantile, tUpperTail } from './student-t.ts'

function near(value: number, known: number, relative: number) {
  expect(Math.abs(value - known)).toBeLessThanOrEqual(relative * Math.abs(known))
}

// Known to 16 digits by arithmetic of 30 digits.
test('normal: far tails keep their digits', () => {
  near(normalUpperTail(1.96), 0.024997895148220435, 1e-14)
  near(normalUpperTail(6), 9.865876450376981e-10, 1e-13)
  near(normalUpperTail(30), 4.906713927148187e-198, 1e-12)
  near(normalQuantile(0.975), 1.959963984540054, 1e-14)
  expect(normalUpperQuantile(0.5)).toBe(0)
  expect(normalCdf(-Infinity)).toBe(0)
})

test('t: 1 and 2 degrees of freedom in closed form, infinitely many are the normal distribution', () => {
  for (const share of [0.4, 0.025, 0.0005, 1e-9]) {
    near(tUpperQuantile(share, 1), 1 / Math.tan(Math.PI * share), 1e-12)
    near(tUpperQuantile(share, 2), (1 - 2 * share) / Math.sqrt(2 * share * (1 - share)), 1e-12)
    near(tUpperQuantile(share, Infinity), normalUpperQuantile(share), 1e-14)
    near(tUpperQuantile(share, 1e9), normalUpperQuantile(share), 1e-7)
  }
  expect(tQuantile(0.5, 3)).toBe(0)
  expect(tCdf(0, 3)).toBe(0.5)
  expect(tUpperTail(-Infinity, 3)).toBe(1)
})

test('F of 1 degree of freedom is t squared, F of 2 and 2 is in closed form', () => {
  for (const share of [0.05, 0.005]) near(fUpperQuantile(share, 1, 7), tUpperQuantile(share / 2, 7) ** 2, 1e-12)
  near(fTails(3, 2, 2).lower, 0.75, 1e-14)
  near(fUpperQuantile(0.25, 2, 2), 3, 1e-13)
})

test('gamma and beta in closed form', () => {
  near(gammaCdf(3, 1, 2), -Math.expm1(-1.5), 1e-14)
  near(chiSquareUpperTail(5, 2), Math.exp(-2.5), 1e-13)
  near(gammaQuantile(0.9, 1, 2), 2 * Math.log(10), 1e-13)
  near(betaQuantile(0.25, 1, 1), 0.25, 1e-13)
  near(betaCdf(0.5, 7, 7), 0.5, 1e-14)
})

test('range of two and three normal values in closed form', () => {
  near(rangeMean(2), 2 / Math.sqrt(Math.PI), 1e-13)
  near(rangeStandardDeviation(2), Math.sqrt(2 - 4 / Math.PI), 1e-12)
  near(rangeMean(3), 3 / Math.sqrt(Math.PI), 1e-13)
  near(rangeQuantile(0.95, 2), Math.SQRT2 * normalQuantile(0.975), 1e-12)
  expect(rangeCdf(0, 5)).toBe(0)
  expect(rangeCdf(30, 5)).toBeCloseTo(1, 12)
})

const shares = fc.double({ min: 1e-12, max: 1 - 1e-12, noNaN: true })
const degrees = fc.double({ min: 0.3, max: 5000, noNaN: true })

test('a quantile gives its share back, to nine digits, for any share and degrees of freedom', () => {
  fc.assert(
    fc.property(shares, degrees, degrees, (share, d1, d2) => {
      near(normalCdf(normalQuantile(share)), share, 1e-9)
      near(tUpperTail(tUpperQuantile(share, d1), d1), share, 1e-9)
      near(gammaCdf(gammaQuantile(share, d1), d1), share, 1e-9)
      const f = fUpperQuantile(share, d1, d2)
      if (f > 1e-300 && f < 1e300) near(fTails(f, d1, d2).upper, share, 1e-9)
    }),
    { numRuns: 60 },
  )
})

test('what cannot be is a typed refusal, never a number that is none', () => {
  const refusal = expect.objectContaining({ name: 'MethodInputError' })
  for (const share of [0, 1, -0.1, 1.1, Number.NaN]) {
    expect(() => normalQuantile(share)).toThrow(refusal)
    expect(() => tUpperQuantile(share, 3)).toThrow(refusal)
    expect(() => fUpperQuantile(share, 3, 3)).toThrow(refusal)
    expect(() => gammaQuantile(share, 3)).toThrow(refusal)
    expect(() => betaQuantile(share, 3, 3)).toThrow(refusal)
    expect(() => rangeQuantile(share, 3)).toThrow(refusal)
  }
  for (const degree of [0, -1, Number.NaN]) expect(() => tUpperQuantile(0.05, degree)).toThrow(refusal)
  expect(() => normalCdf(Number.NaN)).toThrow(refusal)
  expect(() => rangeMean(1)).toThrow(refusal)
  expect(() => rangeMean(2.5)).toThrow(refusal)
})
