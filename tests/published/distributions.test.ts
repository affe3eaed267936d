import { algorithmA } from '@curebook/trade/statistics/algorithm-a'
import { coefficientOfVariation } from '@curebook/trade/statistics/coefficient-of-variation'
import { betaQuantile } from '@curebook/trade/statistics/distributions/beta'
import { fTails, fUpperQuantile } from '@curebook/trade/statistics/distributions/fisher-f'
import { gammaCdf } from '@curebook/trade/statistics/distributions/gamma'
import { rangeQuantile } from '@curebook/trade/statistics/distributions/normal-range'
import { normalCdf, normalQuantile } from '@curebook/trade/statistics/distributions/normal'
import { tCdf, tQuantile, tUpperQuantile } from '@curebook/trade/statistics/distributions/student-t'
import { incompleteBeta } from '@curebook/trade/statistics/special/incomplete-beta'
import { logGamma } from '@curebook/trade/statistics/special/log-gamma'
import jstat from 'jstat'
import { coefficientOfVariation as theirVariation, cumulativeStdNormalProbability, gammaln } from 'simple-statistics'
import { expect, test } from 'vitest'

// Two statistics libraries of others, jstat and simple-statistics, and the printed tables of the t and F distributions.
const { jStat } = jstat

function agree(ours: number, theirs: number, relative: number) {
  expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(relative * Math.abs(theirs))
}

const degrees = [1, 2, 3, 5, 7.5, 12, 30, 98.3]
const shares = [0.001, 0.01, 0.025, 0.05, 0.2, 0.5, 0.7, 0.9, 0.95, 0.975, 0.995]

test('ln Γ agrees with jstat and simple-statistics, normal and gamma shares with jstat, to 1e-9', () => {
  for (const x of [0.3, 0.5, 1.5, 3.7, 8, 10, 45.6, 300]) {
    agree(logGamma(x), jStat.gammaln(x), 1e-9)
    agree(logGamma(x), gammaln(x), 1e-9)
  }
  for (const x of [-3.2, -1.96, -0.4, 0, 0.8, 1.645, 2.9]) agree(normalCdf(x), jStat.normal.cdf(x, 0, 1), 1e-9)
  for (const x of [0.1, 0.9, 2.5, 7])
    for (const d1 of degrees) {
      agree(gammaCdf(x, d1, 1.7), jStat.gamma.cdf(x, d1, 1.7), 1e-9)
      agree(gammaCdf(x, d1 / 2, 2), jStat.chisquare.cdf(x, d1), 1e-9)
    }
})

// jstat ends its continued fraction at 3e-7: beta, t and F agree with it to 5e-8, and with arithmetic of 30 digits below.
test('incomplete beta function, t and F shares agree with jstat to 5e-8', () => {
  for (const a of degrees)
    for (const b of degrees) {
      for (const x of [0.05, 0.3, 0.5, 0.8, 0.97]) agree(incompleteBeta(a, b, x), jStat.ibeta(x, a, b), 5e-8)
      for (const x of [0.1, 0.9, 2.5, 7]) agree(fTails(x, a, b).lower, jStat.centralF.cdf(x, a, b), 5e-8)
    }
  for (const x of [-3.2, -1.96, -0.4, 0, 0.8, 1.645, 2.9])
    for (const nu of degrees) agree(tCdf(x, nu), jStat.studentt.cdf(x, nu), 5e-8)
})

test.each([
  [2.5, 7.5, 0.2, 0.4012386982471916],
  [0.5, 49.15, 0.05, 0.9748954422969972],
  [98.3, 30, 0.8, 0.8159261742893586],
  [98.3, 98.3, 0.3, 2.496592154098411e-9],
  [1000, 1200, 0.45, 0.3346623426715409],
  [500, 0.5, 0.995, 0.02520076536204585],
])('incomplete beta function of %d, %d at %d against arithmetic of 30 digits, to 1e-12', (a, b, x, known) => {
  agree(incompleteBeta(a, b, x), known, 1e-12)
})

test.each([
  [0.025, 5, 2.570581835636316],
  [0.005, 7.5, 3.421422688124044],
  [0.0003125, 6, 6.51206149649687],
  [0.001, 98.3, 3.175219621644421],
])('t above which a share of %d lies with %d degrees of freedom, likewise', (share, nu, known) => {
  agree(tUpperQuantile(share, nu), known, 1e-12)
})

test('quantiles of normal, t, F and beta agree with jstat as far as jstat goes', () => {
  for (const share of shares) {
    if (share !== 0.5) agree(normalQuantile(share), jStat.normal.inv(share, 0, 1), 1e-8)
    for (const d1 of degrees) {
      if (share !== 0.5) agree(tQuantile(share, d1), jStat.studentt.inv(share, d1), 1e-7)
      for (const d2 of degrees) {
        agree(fUpperQuantile(1 - share, d1, d2), jStat.centralF.inv(share, d1, d2), 1e-6)
        agree(betaQuantile(share, d1, d2), jStat.beta.inv(share, d1, d2), 1e-6)
      }
    }
  }
})

test('the 95 % range of n values is the studentized range of jstat with very many degrees of freedom', () => {
  for (let n = 2; n <= 10; n += 1) agree(rangeQuantile(0.95, n), jStat.tukey.inv(0.95, n, 1e6), 1e-4)
})

test('the normal table of simple-statistics, printed to four decimals', () => {
  for (const z of [0, 0.5, 1, 1.96, 2.33, 3])
    expect(Math.abs(normalCdf(z) - cumulativeStdNormalProbability(z))).toBeLessThanOrEqual(1e-4)
})

test('coefficient of variation and the start of Algorithm A agree with both', () => {
  const values = ['4.5', '4.9', '5.6', '4.2', '6.2', '5.2', '9.9']
  const numbers = values.map(Number)
  agree(Number(coefficientOfVariation(values)) / 100, theirVariation(numbers), 1e-12)
  agree(Number(coefficientOfVariation(values)) / 100, jStat.coeffvar(numbers) * Math.sqrt(7 / 6), 1e-12)
  expect(jStat.median(numbers)).toBe(5.2)
  expect(Math.abs(Number(algorithmA(values).mean) - 5.3865)).toBeLessThan(5e-5)
})

// Student's t and F as printed in the NIST/SEMATECH e-Handbook 1.3.6.7.2 and 1.3.6.7.3.
test.each([
  [1, 0.95, 6.314],
  [1, 0.975, 12.706],
  [2, 0.995, 9.925],
  [5, 0.975, 2.571],
  [10, 0.975, 2.228],
  [10, 0.999, 4.144],
  [30, 0.95, 1.697],
  [100, 0.99, 2.364],
])('t table: %d degrees of freedom, %d → %d', (nu, share, printed) => {
  expect(tQuantile(share, nu)).toBeCloseTo(printed, 3)
})

test.each([
  [0.05, 1, 1, 161.448],
  [0.05, 3, 10, 3.708],
  [0.05, 5, 20, 2.711],
  [0.01, 2, 10, 7.559],
  [0.01, 10, 20, 3.368],
])('F table at %d with %d and %d degrees of freedom → %d', (share, d1, d2, printed) => {
  expect(fUpperQuantile(share, d1, d2)).toBeCloseTo(printed, 3)
})
