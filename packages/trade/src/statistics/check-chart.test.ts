import { expect, test } from 'vitest'
import { checkChart } from './check-chart.ts'

test('ten flow rates of the e-Handbook 6.3.2.2: centre 50.81, limits 45.82 and 55.80, no signal', () => {
  // Printed with d2 = 1.128, here with all of its digits.
  const rates = ['49.6', '47.6', '49.9', '51.3', '47.8', '51.2', '52.6', '52.4', '53.6', '52.1']
  const chart = checkChart(rates)!
  expect(chart.individuals.centre).toBe('50.81')
  expect(Number(chart.movingRange.centre)).toBeCloseTo(1.8778, 4)
  expect(Number(chart.individuals.upper)).toBeCloseTo(55.8041, 1)
  expect(Number(chart.individuals.lower)).toBeCloseTo(45.8159, 1)
  expect(chart.signals).toEqual([])
  expect(chart.movingRanges).toHaveLength(9)
})

test('a check far off is a signal of the named set, at its own place', () => {
  const masses = ['500.1', '499.9', '500.0', '500.1', '499.9', '500.0', '500.1', '500.0', '500.1', '502.0']
  const { rules, signals } = checkChart(masses)!
  expect(rules).toBe('Western Electric')
  expect(signals.map(({ rule, points }) => [rule, points])).toContainEqual(['1 point beyond 3 σ', [9]])
})

test('fewer than eight checks, and checks that all read the same, give no limits', () => {
  expect(checkChart(['1', '2', '3', '4', '5', '6', '7'])).toBeNull()
  expect(checkChart(Array.from({ length: 9 }, (_, at) => (at % 2 ? '500.0' : '500')))).toBeNull()
})
