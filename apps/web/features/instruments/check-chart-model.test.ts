import type { CheckChart } from '@curebook/contract/check-charts'
import { expect, test } from 'vitest'
import { chartsOfChecks, type CheckChartWords, decimalsOf } from './check-chart-model.ts'

const words: CheckChartWords = {
  individuals: { title: 'Known mass', sentence: 'Checks' },
  ranges: { title: 'Moving range', sentence: 'Differences' },
  ...{ series: 'Known mass', difference: 'Difference', order: 'Check', orderUnit: 'oldest first', checked: 'Checked' },
  decimalSign: '.',
  at: (instant) => instant.slice(0, 10),
  limit: (which, digits) => `${which} ${digits}`,
}
const values = ['499.98', '500.01', '500.02', '500.00', '499.99', '500.03', '500.01', '500.2']
const chart: CheckChart = {
  ...{ key: 'known-mass 500 g', kind: 'known-mass', nominal: '500', unit: 'g', count: 8, missing: 0 },
  points: values.map((value, at) => ({
    ...{ id: `c${at}`, checkedAt: `2026-03-0${at + 1}T08:00:00Z`, value },
    movingRange: at === 0 ? null : Math.abs(Number(value) - Number(values[at - 1])).toFixed(2),
    signals: at === 7 ? ['1 point beyond 3 σ'] : [],
  })),
  limits: {
    individuals: { centre: '500.03', lower: '499.90', upper: '500.15' },
    movingRange: { centre: '0.05', lower: '0', upper: '0.15' },
    rules: 'Western Electric',
  },
}

test('individuals and moving ranges share the order of checks; a signal is marked on the check that completes it', () => {
  const [individuals, ranges] = chartsOfChecks(chart, words)
  expect(individuals!.series[0]!.points.map(({ x, yDigits }) => [x, yDigits])).toEqual(
    values.map((value, at) => [at + 1, value]),
  )
  expect(individuals!.series[0]!.points.map(({ flags }) => flags.length)).toEqual([0, 0, 0, 0, 0, 0, 0, 1])
  expect(individuals!.limits.map(({ label }) => label)).toEqual(['lower 499.90', 'centre 500.03', 'upper 500.15'])
  // The first has none before it; the rules read the individuals alone.
  expect(ranges!.series[0]!.points.map(({ x }) => x)).toEqual([2, 3, 4, 5, 6, 7, 8])
  expect(ranges!.series[0]!.points.every(({ flags }) => flags.length === 0)).toBe(true)
  expect(ranges!.y.domain[0]).toBe(0)
})

test('everything drawn lies on the axes, and weights are written as finely as they were read', () => {
  for (const { y, limits, series, pointsAs } of chartsOfChecks(chart, words)) {
    const drawn = [...limits.map(({ at }) => at), ...series.flatMap(({ points }) => points.map((point) => point.y))]
    expect(Math.min(...drawn)).toBeGreaterThanOrEqual(y.domain[0])
    expect(Math.max(...drawn)).toBeLessThanOrEqual(y.domain[1])
    expect(pointsAs).toEqual({ head: 'Checked', yDecimals: 2 })
  }
  expect(decimalsOf(chart)).toBe(2)
})

test('without limits nothing is drawn', () => {
  expect(chartsOfChecks({ ...chart, limits: null }, words)).toEqual([])
})
