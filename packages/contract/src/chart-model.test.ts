import { describe, expect, test } from 'vitest'
import { chartOfCurves, niceTicks } from './chart-model.ts'
import type { Curve, ExcludedPoint } from './range.ts'

const words = {
  title: 'Abrasion',
  sentence: 'Falls with binder.',
  xLabel: 'Residual binder',
  xUnit: '% of dry aggregate',
  yLabel: 'Loss',
  decimalSign: ',' as const,
  excluded: ({ kind, reason, by }: ExcludedPoint) => `${kind}: ${reason} (${by ?? ''})`,
  held: ({ limit }: Curve) => `limit ${limit?.guarded?.held ?? ''}`,
}

const curve: Curve = {
  key: 'abrasion-1h',
  methodKey: 'wet-track-abrasion-1-hour',
  property: 'abrasion-loss',
  soak: '1-hour',
  label: '1-hour soak',
  unit: 'g/m²',
  sense: 'max',
  limit: { value: '538', unit: 'g/m²', label: 'at most 538 g/m²', source: 'A143', guarded: null },
  points: [
    {
      testId: 't2',
      resultId: 'r2',
      code: 'K7M2',
      label: '11-1',
      mixId: 'm2',
      emulsionPercent: '11',
      x: '6.82',
      y: '512.30',
      flags: ['corrected'],
    },
    {
      testId: 't1',
      resultId: 'r1',
      code: 'K7M1',
      label: '10-1',
      mixId: 'm1',
      emulsionPercent: '10',
      x: '6.20',
      y: '733.41',
      flags: [],
    },
  ],
  means: [
    { mixId: 'm2', emulsionPercent: '11', x: '6.82', y: '512.30', n: 1, standardDeviation: null, range: null },
    { mixId: 'm1', emulsionPercent: '10', x: '6.20', y: '733.41', n: 1, standardDeviation: null, range: null },
  ],
  excluded: [],
  meansWithExcluded: [],
  crossing: '6.75',
  flags: [],
}

describe('ticks', () => {
  test.each([
    [0, 807, ['0', '200', '400', '600', '800', '1000']],
    [6.2, 8.28, ['6,0', '6,5', '7,0', '7,5', '8,0', '8,5']],
    [0.012, 0.019, ['0,012', '0,014', '0,016', '0,018', '0,020']],
    [-3, 4, ['−4', '−2', '0', '2', '4']],
  ])('%d to %d stand on round numbers', (low, high, labels) => {
    expect(niceTicks(low, high, 6, ',').map(({ label }) => label)).toEqual(labels)
  })
  test('one value, or none, still gives an axis', () => {
    expect(niceTicks(5, 5, 6).length).toBeGreaterThan(1)
    expect(niceTicks(Infinity, -Infinity, 6)).toHaveLength(2)
  })
})

describe('the chart of a curve', () => {
  const model = chartOfCurves([curve], [{ key: 'range', from: 6.905, to: 8.28, label: 'Acceptable range' }], words)
  test('draws nothing outside its axes and begins heights at zero', () => {
    expect(model.y.domain[0]).toBe(0)
    for (const { x, y } of model.series.flatMap(({ points }) => points)) {
      expect(x).toBeGreaterThanOrEqual(model.x.domain[0])
      expect(x).toBeLessThanOrEqual(model.x.domain[1])
      expect(y).toBeLessThanOrEqual(model.y.domain[1])
    }
    expect(model.x.domain[1]).toBeGreaterThanOrEqual(8.28)
  })
  test('keeps the digits of every point and joins the means in order of content', () => {
    expect(model.series[0]?.points[0]).toMatchObject({ yDigits: '512.30', flags: ['corrected'] })
    expect(model.series[0]?.means.map(({ x }) => x)).toEqual([6.2, 6.82])
  })
  test('an axis that does not begin at zero says where it begins', () => {
    expect(model.x.begins).toBe(model.x.ticks[0]?.label)
    expect(model.x.begins).toBe('6,0')
    expect(model.y.begins).toBeNull()
  })
  test('what does not count is drawn with its reason, inside the axes, and joins no mean', () => {
    const { flags: _, ...result } = curve.points[0]!
    const why = { kind: 'void', reason: 'Felt tore', by: 'Ada' } as const
    const excluded = { ...result, testId: 't3', x: '9.4', y: '1900', ...why }
    const [series] = chartOfCurves([{ ...curve, excluded: [excluded] }], [], words).series
    expect(series?.excluded).toMatchObject([{ key: 't3', y: 1900, flags: ['void: Felt tore (Ada)'] }])
    expect(series?.points).toEqual(model.series[0]?.points)
    expect(series?.means).toEqual(model.series[0]?.means)
    const { x, y } = chartOfCurves([{ ...curve, excluded: [excluded] }], [], words)
    expect(x.domain[1]).toBeGreaterThanOrEqual(9.4)
    expect(y.domain[1]).toBeGreaterThanOrEqual(1900)
  })
  test('two series differ by mark and dash', () => {
    const [one, other] = chartOfCurves([curve, { ...curve, key: 'b' }], [], words).series
    expect(one?.mark).not.toBe(other?.mark)
    expect(one?.dash).not.toBe(other?.dash)
  })
  test('the limit stands on its line, its label at the end that the curve keeps away from', () => {
    expect(model.limits).toEqual([
      { key: 'abrasion-1h', axis: 'y', at: 538, label: 'at most 538 g/m²', labelAt: 'start', dash: 'solid' },
    ])
  })
})

test('under a guard band the limit stands beside what the curve is held to, each named', () => {
  const guarded = { held: '538', rule: 'guard band of U = 38 g/m²' }
  const limit = { ...curve.limit!, value: '500', label: 'accepted at most 500', guarded }
  const { limits, y } = chartOfCurves([{ ...curve, limit }], [], words)
  expect(limits.map(({ at, label, labelAt }) => [at, label, labelAt])).toEqual([
    [500, 'accepted at most 500', 'start'],
    [538, 'limit 538', 'end'],
  ])
  expect(new Set(limits.map(({ dash }) => dash)).size).toBe(2)
  expect(y.domain[1]).toBeGreaterThanOrEqual(538)
})
