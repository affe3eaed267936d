import { dixonCritical, type DixonRatio } from '@curebook/trade/statistics/dixon-critical'
import { dixonTest } from '@curebook/trade/statistics/dixon'
import { grubbsCritical, grubbsTest } from '@curebook/trade/statistics/grubbs'
import { expect, test } from 'vitest'

// Sources: NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.17; Dean and Dixon, Analytical Chemistry 23, 1951, as
// reprinted in public tables; Rorabacher, Analytical Chemistry 63, 1991, two-sided r10, likewise. Ours are computed.

// n, one-sided 5 %, 1 %, two-sided 5 %, 1 %
test.each([
  [3, 1.1531, 1.1546, 1.1543, 1.1547],
  [4, 1.4625, 1.4925, 1.4813, 1.4963],
  [5, 1.6714, 1.7489, 1.715, 1.7637],
  [6, 1.8221, 1.9442, 1.8871, 1.9728],
  [7, 1.9381, 2.0973, 2.02, 2.1391],
  [8, 2.0317, 2.2208, 2.1266, 2.2744],
  [9, 2.1096, 2.3231, 2.215, 2.3868],
  [10, 2.1761, 2.4097, 2.29, 2.4821],
  [12, 2.285, 2.5494, 2.4116, 2.6357],
  [15, 2.409, 2.7049, 2.5483, 2.8061],
])('Grubbs, n = %d', (n, one5, one1, two5, two1) => {
  expect(Math.abs(grubbsCritical(n, 0.05, 'one-sided') - one5)).toBeLessThan(0.000051)
  expect(Math.abs(grubbsCritical(n, 0.01, 'one-sided') - one1)).toBeLessThan(0.000051)
  expect(Math.abs(grubbsCritical(n, 0.05, 'two-sided') - two5)).toBeLessThan(0.000051)
  expect(Math.abs(grubbsCritical(n, 0.01, 'two-sided') - two1)).toBeLessThan(0.000051)
})

test('two misprints of a much-copied open table are misprints: 2.202 for n = 7 and 2.755 for n = 15', () => {
  // It prints two-sided values: 5 % of n = 7 with its digits exchanged, 1 % of n = 15 off by 0.05.
  const table = { 6: [1.887, 1.973], 8: [2.126, 2.274], 10: [2.29, 2.482] } as const
  for (const [n, [five, one]] of Object.entries(table)) {
    expect(Math.abs(grubbsCritical(Number(n), 0.05, 'two-sided') - five)).toBeLessThan(0.001)
    expect(Math.abs(grubbsCritical(Number(n), 0.01, 'two-sided') - one)).toBeLessThan(0.001)
  }
  expect(Math.abs(grubbsCritical(7, 0.05, 'two-sided') - 2.202)).toBeGreaterThan(0.18)
  expect(Math.abs(grubbsCritical(15, 0.01, 'two-sided') - 2.755)).toBeGreaterThan(0.05)
})

test('mass spectrometer, e-Handbook 1.3.5.17: G = 2.468765 over 2.031652; without it 202.18 is none', () => {
  const values = ['199.31', '199.53', '200.19', '200.82', '201.92', '201.95', '202.18', '245.57']
  const found = grubbsTest(values, 'high', 0.05)
  expect(Number(found.statistic)).toBeCloseTo(2.468765, 6)
  expect(Number(found.critical)).toBeCloseTo(2.031652, 6)
  // Half of the two-sided one, which is printed as 3.0026e-7.
  expect(Number(found.probability)).toBeCloseTo(1.5013e-7, 11)
  expect(found).toMatchObject({ exceeds: true, suspect: { index: 7, value: '245.57' } })
  expect(grubbsTest(values, 'two-sided', 0.05)).toMatchObject({ exceeds: true })
  expect(Number(grubbsTest(values, 'two-sided', 0.05).probability)).toBeCloseTo(3.0026e-7, 11)
  expect(grubbsTest(values.slice(0, 7), 'high', 0.05).exceeds).toBe(false)
})

// n, ratio, one-sided 5 %, 1 %. The printed tables come from hand integration of 1951: they agree to 0.004.
test.each([
  [3, 'r10', 0.941, 0.988],
  [4, 'r10', 0.765, 0.889],
  [5, 'r10', 0.642, 0.78],
  [6, 'r10', 0.56, 0.698],
  [7, 'r10', 0.507, 0.637],
  [8, 'r11', 0.554, 0.683],
  [9, 'r11', 0.512, 0.635],
  [10, 'r11', 0.477, 0.597],
] as const)('Dixon one-sided, n = %d, %s', (n, ratio: DixonRatio, five, one) => {
  expect(Math.abs(dixonCritical(n, 0.05, 'one-sided', ratio) - five)).toBeLessThan(0.004)
  expect(Math.abs(dixonCritical(n, 0.01, 'one-sided', ratio) - one)).toBeLessThan(0.004)
})

// n, r10 two-sided 5 %, 1 %
test.each([
  [3, 0.97, 0.994],
  [4, 0.829, 0.926],
  [5, 0.71, 0.821],
  [6, 0.625, 0.74],
  [7, 0.568, 0.68],
  [8, 0.526, 0.634],
  [9, 0.493, 0.598],
  [10, 0.466, 0.568],
])('Dixon r10 two-sided, n = %d', (n, five, one) => {
  expect(Math.abs(dixonCritical(n, 0.05, 'two-sided', 'r10') - five)).toBeLessThan(0.006)
  expect(Math.abs(dixonCritical(n, 0.01, 'two-sided', 'r10') - one)).toBeLessThan(0.006)
})

test('Dean and Dixon 1951, six results: r10 of the low one 0.5556, kept at 5 % one-sided and two-sided', () => {
  const values = ['40.02', '40.12', '40.16', '40.18', '40.18', '40.20']
  const found = dixonTest(values, 'low', 0.05)
  expect(Number(found.statistic)).toBeCloseTo(0.5556, 4)
  expect(found).toMatchObject({ exceeds: false, ratio: 'r10', suspect: { value: '40.02' } })
  expect(dixonTest(values, 'low', 0.1).exceeds).toBe(true)
  expect(dixonTest(values, 'two-sided', 0.05).exceeds).toBe(false)
})

test('copper wire of ASTM E178 (values from memory): Grubbs flags 596 at 5 % and not at 1 %, Dixon does not', () => {
  const values = ['568', '570', '570', '570', '572', '572', '572', '578', '584', '596']
  const grubbs = grubbsTest(values, 'high', 0.05)
  expect(Number(grubbs.statistic)).toBeCloseTo(2.39, 3)
  expect(grubbs.exceeds).toBe(true)
  expect(grubbsTest(values, 'high', 0.01).exceeds).toBe(false)
  const dixon = dixonTest(values, 'high', 0.05)
  expect(Number(dixon.statistic)).toBeCloseTo(12 / 26, 10)
  expect(dixon).toMatchObject({ exceeds: false, ratio: 'r11' })
})
