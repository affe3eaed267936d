import { controlChartConstants } from '@curebook/trade/statistics/control-chart-constants'
import { ewmaChart } from '@curebook/trade/statistics/ewma-chart'
import { individualsChart } from '@curebook/trade/statistics/individuals-chart'
import { runFindings } from '@curebook/trade/statistics/run-rules'
import { subgroupChart } from '@curebook/trade/statistics/subgroup-chart'
import { mean as outsideMean, sampleStandardDeviation } from 'simple-statistics'
import { expect, test } from 'vitest'

// Sources: NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2; D. C. Montgomery, Introduction to Statistical Quality
// Control, piston rings; published tables of the constants (ASTM E2587). Older tables round a little otherwise: 0.002.

// n, d2, d3, c4, A2, A3, D3, D4, B3, B4
test.each([
  [2, 1.128, 0.853, 0.7979, 1.88, 2.659, 0, 3.267, 0, 3.267],
  [3, 1.693, 0.888, 0.8862, 1.023, 1.954, 0, 2.575, 0, 2.568],
  [4, 2.059, 0.88, 0.9213, 0.729, 1.628, 0, 2.282, 0, 2.266],
  [5, 2.326, 0.864, 0.94, 0.577, 1.427, 0, 2.114, 0, 2.089],
  [6, 2.534, 0.848, 0.9515, 0.483, 1.287, 0, 2.004, 0.03, 1.97],
  [7, 2.704, 0.833, 0.9594, 0.419, 1.182, 0.076, 1.924, 0.118, 1.882],
  [8, 2.847, 0.82, 0.965, 0.373, 1.099, 0.136, 1.864, 0.185, 1.815],
  [9, 2.97, 0.808, 0.9693, 0.337, 1.032, 0.184, 1.816, 0.239, 1.761],
  [10, 3.078, 0.797, 0.9727, 0.308, 0.975, 0.223, 1.777, 0.284, 1.716],
])('constants of subgroups of %d', (n, d2, d3, c4, A2, A3, D3, D4, B3, B4) => {
  const computed = controlChartConstants(n)
  for (const [key, printed] of Object.entries({ d2, d3, c4, A2, A3, D3, D4, B3, B4 }))
    expect(Math.abs(computed[key as 'd2'] - printed), key).toBeLessThan(0.002)
})

const batches = ['49.6', '47.6', '49.9', '51.3', '47.8', '51.2', '52.6', '52.4', '53.6', '52.1']

test('e-Handbook 6.3.2.2, individuals: 50.81, limits 55.8041 and 45.8159 with the printed constants, no signal', () => {
  const chart = individualsChart(batches, 'mean, printed constants')
  expect(chart.individuals.centre).toBe('50.81')
  expect(Number(chart.individuals.upper)).toBeCloseTo(55.8041, 3)
  expect(Number(chart.individuals.lower)).toBeCloseTo(45.8159, 3)
  expect(Number(chart.movingRange.upper)).toBeCloseTo(6.1347, 3)
  expect(runFindings(batches, chart.individuals.centre, chart.sigma, 'Western Electric')).toEqual([])
  // With all digits of d2 the limits stand 0.0017 nearer.
  expect(Number(individualsChart(batches, 'mean').individuals.upper)).toBeCloseTo(55.8024, 4)
})

test('e-Handbook 6.3.2.4, EWMA: 21 values to two decimals, limits 52.5884 and 47.4115, none beyond', () => {
  const values = `52.0 47.0 53.0 49.3 50.1 47.0 51.0 50.1 51.2 50.5 ${batches.join(' ')}`.split(' ')
  const settings = { target: '50', standardDeviation: '2.0539', weight: '0.3', width: '3', limits: 'steady' } as const
  const points = ewmaChart(values, settings)
  expect(points.map(({ value }) => Number(value).toFixed(2))).toEqual(
    `50.60 49.52 50.56 50.18 50.16 49.21 49.75 49.85 50.26 50.33 50.11 49.36 49.52 50.05 49.38 49.92 50.73 51.23 51.94
     51.99`.split(/\s+/),
  )
  // The page prints the factor cut to 0.4201.
  expect(Math.abs(Number(points[0]?.upper) - 52.5884)).toBeLessThan(0.001)
  expect(Math.abs(Number(points[0]?.lower) - 47.4115)).toBeLessThan(0.001)
  expect(points.some(({ beyond }) => beyond)).toBe(false)
})

const pistonRings = `
  74.030 74.002 74.019 73.992 74.008
  73.995 73.992 74.001 74.011 74.004
  73.988 74.024 74.021 74.005 74.002
  74.002 73.996 73.993 74.015 74.009
  73.992 74.007 74.015 73.989 74.014
  74.009 73.994 73.997 73.985 73.993
  73.995 74.006 73.994 74.000 74.005
  73.985 74.003 73.993 74.015 73.988
  74.008 73.995 74.009 74.005 74.004
  73.998 74.000 73.990 74.007 73.995
  73.994 73.998 73.994 73.995 73.990
  74.004 74.000 74.007 74.000 73.996
  73.983 74.002 73.998 73.997 74.012
  74.006 73.967 73.994 74.000 73.984
  74.012 74.014 73.998 73.999 74.007
  74.000 73.984 74.005 73.998 73.996
  73.994 74.012 73.986 74.005 74.007
  74.006 74.010 74.018 74.003 74.000
  73.984 74.002 74.003 74.005 73.997
  74.000 74.010 74.013 74.020 74.003
  73.988 74.001 74.009 74.005 73.996
  74.004 73.999 73.990 74.006 74.009
  74.010 73.989 73.990 74.009 74.014
  74.015 74.008 73.993 74.000 74.010
  73.982 73.984 73.995 74.017 74.013`
  .trim()
  .split('\n')
  .map((line) => line.trim().split(' '))

test('piston rings, 25 subgroups of five: mean 74.001176, mean range 0.02276 and their limits', () => {
  const chart = subgroupChart(pistonRings, 'range')
  expect(pistonRings).toHaveLength(25)
  expect(chart.mean.centre).toBe('74.001176')
  expect(chart.spread).toMatchObject({ centre: '0.02276', lower: '0' })
  expect(Number(chart.sigma)).toBeCloseTo(0.009785, 6)
  expect(Number(chart.mean.upper)).toBeCloseTo(74.0143, 5)
  expect(Number(chart.mean.lower)).toBeCloseTo(73.98805, 5)
  expect(Number(chart.spread.upper)).toBeCloseTo(0.04812, 4)
  expect(runFindings(chart.means, chart.mean.centre, String(Number(chart.sigma) / Math.sqrt(5)), 'Nelson')).toEqual([])
})

test('piston rings by standard deviations: the limits of simple-statistics’ mean and deviations with the printed constants', () => {
  const chart = subgroupChart(pistonRings, 'standard deviation')
  const typical = outsideMean(pistonRings.map((group) => sampleStandardDeviation(group.map(Number))))
  expect(Number(chart.spread.centre)).toBeCloseTo(typical, 12)
  expect(Number(chart.sigma)).toBeCloseTo(typical / 0.94, 6)
  expect(Number(chart.mean.upper)).toBeCloseTo(74.001176 + 1.427 * typical, 5)
  expect(Number(chart.mean.lower)).toBeCloseTo(74.001176 - 1.427 * typical, 5)
  expect(Number(chart.spread.upper)).toBeCloseTo(2.089 * typical, 5)
  expect(chart.spread.lower).toBe('0')
})
