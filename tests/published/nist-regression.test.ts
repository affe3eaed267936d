import { autocorrelation } from '@curebook/trade/statistics/autocorrelation'
import { leastSquares } from '@curebook/trade/statistics/least-squares'
import { fitLine } from '@curebook/trade/statistics/line'
import { meanInterval } from '@curebook/trade/statistics/line-interval'
import { mean } from '@curebook/trade/statistics/mean'
import { standardDeviation } from '@curebook/trade/statistics/standard-deviation'
import { linearRegression, linearRegressionLine, rSquared } from 'simple-statistics'
import { expect, test } from 'vitest'
import { lew, longley, mavro, norris, numAcc2, numAcc3, numAcc4, pontius } from './nist-datasets.ts'

// Source: NIST Statistical Reference Datasets, certified values of univariate summary statistics and linear regression.
// Measured by the log relative error, the number of digits that agree; certified values are printed to 15.

function digitsAgreeing(value: string | number, certified: string): number {
  const wanted = Number(certified)
  const off = Math.abs(Number(value) - wanted)
  return off === 0 ? 15 : Math.min(15, -Math.log10(wanted === 0 ? off : off / Math.abs(wanted)))
}

/** 9 digits are asked of the sets of lower difficulty; computed in decimals all sets give 14 and more. */
function agrees(value: string | undefined, certified: string) {
  expect(digitsAgreeing(value ?? '', certified)).toBeGreaterThanOrEqual(14)
}

test.each([
  ['Mavro', mavro, 50, '2.00185600000000', '0.000429123454003053', '0.937989183438248'],
  ['Lew', lew, 200, '-177.435000000000', '277.332168044316', '-0.307304800605679'],
  ['NumAcc2', numAcc2, 1001, '1.2', '0.1', '-0.999'],
  ['NumAcc3', numAcc3, 1001, '1000000.2', '0.1', '-0.999'],
  ['NumAcc4', numAcc4, 1001, '10000000.2', '0.1', '-0.999'],
] as const)(
  '%s: certified mean, standard deviation and autocorrelation',
  (_, values, n, certifiedMean, deviation, together) => {
    expect(values).toHaveLength(n)
    agrees(mean(values).toFixed(), certifiedMean)
    agrees(standardDeviation(values).toFixed(), deviation)
    agrees(autocorrelation(values), together)
  },
)

test('NumAcc4 is a trap for the formula of one pass: in doubles it loses every digit', () => {
  const numbers = numAcc4.map(Number)
  const sum = numbers.reduce((total, value) => total + value, 0)
  const squares = numbers.reduce((total, value) => total + value * value, 0)
  const onePass = Math.sqrt(Math.abs(squares - (sum * sum) / numbers.length) / (numbers.length - 1))
  expect(digitsAgreeing(onePass, '0.1')).toBeLessThan(1)
  expect(standardDeviation(numAcc4).toFixed()).toBe('0.1')
})

test('Norris: the line, its standard errors, residual scatter and r²', () => {
  expect(norris).toHaveLength(36)
  const line = fitLine(norris)
  agrees(line.intercept?.value, '-0.262323073774029')
  agrees(line.intercept?.standardError, '0.232818234301152')
  agrees(line.slope.value, '1.00211681802045')
  agrees(line.slope.standardError, '0.429796848199937E-03')
  agrees(line.residualStandardDeviation, '0.884796396144373')
  agrees(line.rSquared ?? undefined, '0.999993745883712')
  expect(Number(meanInterval(line, '500', 0.95).value)).toBeCloseTo(500.796086, 6)
})

test('NoInt1 and NoInt2: through the origin', () => {
  const first = fitLine(
    Array.from({ length: 11 }, (_, index) => ({ x: String(60 + index), y: String(130 + index) })),
    { throughOrigin: true },
  )
  agrees(first.slope.value, '2.07438016528926')
  agrees(first.slope.standardError, '0.165289256198347E-01')
  agrees(first.residualStandardDeviation, '3.56753034006338')
  agrees(first.rSquared ?? undefined, '0.999365492298663')
  const second = fitLine(
    [
      { x: '4', y: '3' },
      { x: '5', y: '4' },
      { x: '6', y: '4' },
    ],
    { throughOrigin: true },
  )
  agrees(second.slope.value, '0.727272727272727')
  agrees(second.slope.standardError, '0.420827318078432E-01')
  agrees(second.residualStandardDeviation, '0.369274472937998')
  agrees(second.rSquared ?? undefined, '0.993348115299335')
})

test('Pontius: a parabola over x up to 3 000 000', () => {
  const fit = leastSquares(
    pontius.map(({ x }) => [x, String(Number(x) ** 2)]),
    pontius.map(({ y }) => y),
    { constant: true },
  )
  expect(fit).toMatchObject({ n: 40, degreesOfFreedom: 37 })
  agrees(fit.coefficients[0]?.value, '0.673565789473684E-03')
  agrees(fit.coefficients[1]?.value, '0.732059160401003E-06')
  agrees(fit.coefficients[2]?.value, '-0.316081871345029E-14')
  agrees(fit.coefficients[0]?.standardError, '0.107938612033077E-03')
  agrees(fit.coefficients[1]?.standardError, '0.157817399981659E-09')
  agrees(fit.coefficients[2]?.standardError, '0.486652849992036E-16')
  agrees(fit.residualStandardDeviation, '0.205177424076185E-03')
})

test('Longley: six regressors that nearly follow from each other', () => {
  const fit = leastSquares(
    longley.map(([, ...x]) => x),
    longley.map(([y = '']) => y),
    { constant: true },
  )
  const certified = [
    ['-3482258.63459582', '890420.383607373'],
    ['15.0618722713733', '84.9149257747669'],
    ['-0.358191792925910E-01', '0.334910077722432E-01'],
    ['-2.02022980381683', '0.488399681651699'],
    ['-1.03322686717359', '0.214274163161675'],
    ['-0.511041056535807E-01', '0.226073200069370'],
    ['1829.15146461355', '455.478499142212'],
  ] as const
  for (const [index, [value, standardError]] of certified.entries()) {
    agrees(fit.coefficients[index]?.value, value)
    agrees(fit.coefficients[index]?.standardError, standardError)
  }
  agrees(fit.residualStandardDeviation, '304.854073561965')
  agrees(fit.rSquared ?? undefined, '0.995479004577296')
})

test('the one-variable lines agree with simple-statistics as far as doubles go', () => {
  const pairs = norris.map(({ x, y }) => [Number(x), Number(y)])
  const theirs = linearRegression(pairs)
  const line = fitLine(norris)
  expect(digitsAgreeing(theirs.m, line.slope.value)).toBeGreaterThan(11)
  expect(digitsAgreeing(theirs.b, line.intercept?.value ?? '')).toBeGreaterThan(9)
  expect(digitsAgreeing(rSquared(pairs, linearRegressionLine(theirs)), line.rSquared ?? '')).toBeGreaterThan(12)
})
