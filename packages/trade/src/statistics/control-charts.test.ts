import fc from 'fast-check'
import { expect, test } from 'vitest'
import { controlChartConstants, medianRangeOfTwo } from './control-chart-constants.ts'
import { ewmaChart } from './ewma-chart.ts'
import { individualsChart } from './individuals-chart.ts'
import { runFindings, runRulesOf } from './run-rules.ts'
import { subgroupChart } from './subgroup-chart.ts'

test('constants of two in closed form', () => {
  const { d2, d3, c4, D3, D4, A2 } = controlChartConstants(2)
  expect(d2).toBeCloseTo(2 / Math.sqrt(Math.PI), 13)
  expect(d3).toBeCloseTo(Math.sqrt(2 - 4 / Math.PI), 12)
  expect(c4).toBeCloseTo(Math.sqrt(2 / Math.PI), 13)
  expect(D3).toBe(0)
  expect(D4).toBeCloseTo(1 + (3 * d3) / d2, 14)
  expect(A2).toBeCloseTo(3 / d2 / Math.SQRT2, 14)
  expect(medianRangeOfTwo).toBeCloseTo(0.954, 3)
})

test('the median moving range is not widened by one jump', () => {
  const values = ['10', '11', '10', '11', '40', '11', '10', '11', '10', '11', '10']
  const byMean = individualsChart(values, 'mean')
  const byMedian = individualsChart(values, 'median')
  expect(Number(byMedian.sigma)).toBeCloseTo(1 / medianRangeOfTwo, 12)
  expect(Number(byMean.sigma)).toBeGreaterThan(5)
  expect(Number(byMedian.individuals.upper)).toBeLessThan(40)
})

test('X-bar and s: the limits by hand for subgroups of two', () => {
  const chart = subgroupChart(
    [
      ['1', '3'],
      ['2', '6'],
    ],
    'standard deviation',
  )
  expect(chart.means).toEqual(['2', '4'])
  // mean s = (√2 + 2√2) ÷ 2
  const typical = 1.5 * Math.SQRT2
  expect(Number(chart.sigma)).toBeCloseTo(typical / Math.sqrt(2 / Math.PI), 12)
  expect(Number(chart.mean.upper)).toBeCloseTo(3 + typical * controlChartConstants(2).A3, 12)
  expect(chart.spread.lower).toBe('0')
})

test('an average with weight 1 is the result itself; limits widen towards the steady ones', () => {
  const settings = { target: '10', standardDeviation: '2', weight: '1', width: '3', limits: 'exact' } as const
  const shewhart = ewmaChart(['11', '17'], settings)
  expect(shewhart.map(({ value, lower, upper, beyond }) => [value, lower, upper, beyond])).toEqual([
    ['11', '4', '16', false],
    ['17', '4', '16', true],
  ])
  const slow = ewmaChart(Array<string>(200).fill('10'), { ...settings, weight: '0.2' })
  const [steady] = ewmaChart(['10'], { ...settings, weight: '0.2', limits: 'steady' })
  expect(Number(slow[0]?.upper)).toBeCloseTo(10 + 3 * 2 * 0.2, 12)
  expect(Number(slow.at(-1)?.upper)).toBeCloseTo(Number(steady?.upper), 12)
})

const found = (values: readonly number[], rules: 'Western Electric' | 'Nelson') =>
  runFindings(values.map(String), '0', '1', rules).map(({ rule, points }) => [rule, points])

test('Western Electric: each rule by itself; on a line is not beyond it', () => {
  expect(found([0.5, 3.01], 'Western Electric')).toEqual([['1 point beyond 3 σ', [1]]])
  expect(found([0.5, -3], 'Western Electric')).toEqual([])
  expect(found([2.1, -0.5, 2.5], 'Western Electric')).toEqual([['2 of 3 points beyond 2 σ on one side', [0, 2]]])
  expect(found([2.1, -0.5, -2.5], 'Western Electric')).toEqual([])
  expect(found([1.1, 1.2, -0.5, 1.3, 1.4], 'Western Electric')).toEqual([
    ['4 of 5 points beyond 1 σ on one side', [0, 1, 3, 4]],
  ])
  expect(found([0.1, 0.2, 0.1, 0.3, 0.2, 0.1, 0.2, 0.1], 'Western Electric')).toEqual([
    ['8 points in a row on one side of the centre', [0, 1, 2, 3, 4, 5, 6, 7]],
  ])
  expect(found([0.1, 0.2, 0.1, 0.3, 0, 0.1, 0.2, 0.1], 'Western Electric')).toEqual([])
})

test('Nelson: nine on one side, trends, alternation, hugging and avoiding the centre', () => {
  expect(found(Array<number>(8).fill(0.1), 'Nelson')).toEqual([])
  expect(found(Array<number>(9).fill(0.1), 'Nelson')).toHaveLength(1)
  expect(found([-0.9, -0.5, -0.1, 0.3, 0.6, 0.9], 'Nelson')).toEqual([
    ['6 points in a row rising or falling', [0, 1, 2, 3, 4, 5]],
  ])
  const alternating = Array.from({ length: 14 }, (_, index) => (index % 2 === 0 ? 0.5 : -1.5))
  expect(found(alternating, 'Nelson').map(([rule]) => rule)).toEqual(['14 points in a row going up and down in turn'])
  const hugging = Array.from({ length: 15 }, (_, index) => [0.5, 0.2, -0.4][index % 3] ?? 0)
  expect(found(hugging, 'Nelson').map(([rule]) => rule)).toEqual(['15 points in a row within 1 σ'])
  const avoiding = [1.5, -1.5, 1.2, 1.1, -1.2, -1.1, 1.3, -1.4]
  expect(found(avoiding, 'Nelson').map(([rule]) => rule)).toEqual(['8 points in a row beyond 1 σ on either side'])
  expect(runRulesOf('Nelson')).toHaveLength(8)
  expect(runRulesOf('Western Electric')).toHaveLength(4)
})

test('too few, of differing size, without scatter: refused', () => {
  expect(() => individualsChart(['1'], 'mean')).toThrow(expect.objectContaining({ code: 'missing-reading' }))
  expect(() => subgroupChart([], 'range')).toThrow(expect.objectContaining({ code: 'missing-reading' }))
  expect(() =>
    subgroupChart(
      [
        ['1', '2'],
        ['1', '2', '3'],
      ],
      'range',
    ),
  ).toThrow(expect.objectContaining({ code: 'inconsistent' }))
  expect(() => runFindings(['1'], '0', '0', 'Nelson')).toThrow(expect.objectContaining({ code: 'not-positive' }))
  expect(() =>
    ewmaChart(['1'], { target: '0', standardDeviation: '1', weight: '1.1', width: '3', limits: 'steady' }),
  ).toThrow(expect.objectContaining({ code: 'inconsistent' }))
})

const tenths = fc.integer({ min: -10_000, max: 10_000 }).map((each) => (each / 10).toFixed(1))

test('charts of any results: digits everywhere, the centre between its limits, points of findings on the chart', () => {
  fc.assert(
    fc.property(fc.array(tenths, { minLength: 2, maxLength: 30 }), (values) => {
      for (const estimate of ['mean', 'median'] as const) {
        const { individuals, sigma } = individualsChart(values, estimate)
        for (const digits of [individuals.lower, individuals.upper, sigma]) expect(digits).toMatch(/^-?\d+(\.\d+)?$/)
        expect(Number(individuals.lower)).toBeLessThanOrEqual(Number(individuals.upper))
      }
      for (const { points } of runFindings(values, '0', '100', 'Nelson'))
        expect(points.every((point) => point >= 0 && point < values.length)).toBe(true)
    }),
    { numRuns: 50 },
  )
})
