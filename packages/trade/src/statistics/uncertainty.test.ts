import fc from 'fast-check'
import { expect, test } from 'vitest'
import { combineUncertainty, standardUncertaintyOf } from './uncertainty.ts'

const component = (name: string, standardUncertainty: string, degreesOfFreedom: string | null, sensitivity = '1') => ({
  name,
  sensitivity,
  standardUncertainty,
  degreesOfFreedom,
})

test('independent parts add as squares; each names its share', () => {
  const found = combineUncertainty([component('weighing', '0.3', null), component('area', '0.2', null, '2')], {
    factor: '2',
  })
  expect(found).toMatchObject({ combined: '0.5', expanded: '1', effectiveDegreesOfFreedom: null, coverageFactor: '2' })
  expect(found.contributions).toEqual([
    { name: 'weighing', amount: '0.3', percent: '36' },
    { name: 'area', amount: '0.4', percent: '64' },
  ])
})

test('parts that go together add straight, or cancel', () => {
  const parts = [component('a', '3', null), component('b', '4', null)]
  const both = (coefficient: string) =>
    combineUncertainty(parts, { factor: '2' }, [{ between: [0, 1], coefficient }]).combined
  expect(both('1')).toBe('7')
  expect(both('-1')).toBe('1')
  expect(both('0')).toBe('5')
})

test('effective degrees of freedom: two equal parts of five each are ten, and t is taken at the whole number below', () => {
  const found = combineUncertainty([component('a', '1', '5'), component('b', '1', '5')], { level: 0.95 })
  expect(found.effectiveDegreesOfFreedom).toBe('10')
  expect(Number(found.coverageFactor)).toBeCloseTo(2.228138851964939, 10)
  const uneven = combineUncertainty([component('a', '1', '5'), component('b', '1.3', '7')], { level: 0.95 })
  expect(uneven.effectiveDegreesOfFreedom).toMatch(/^11\.9/)
  expect(Number(uneven.coverageFactor)).toBeCloseTo(2.200985160091584, 8)
})

test('without limit to the degrees of freedom the factor is that of the normal distribution', () => {
  expect(Number(combineUncertainty([component('a', '1', null)], { level: 0.95 }).coverageFactor)).toBeCloseTo(
    1.95996398,
    8,
  )
})

test('what is known by bounds', () => {
  expect(Number(standardUncertaintyOf('rectangular', '1'))).toBeCloseTo(1 / Math.sqrt(3), 14)
  expect(Number(standardUncertaintyOf('triangular', '1'))).toBeCloseTo(1 / Math.sqrt(6), 14)
  expect(Number(standardUncertaintyOf('arcsine', '1'))).toBeCloseTo(1 / Math.sqrt(2), 14)
  expect(Number(standardUncertaintyOf('resolution', '0.1'))).toBeCloseTo(0.1 / Math.sqrt(12), 14)
})

test('nothing to combine, correlations that cannot be, a level where parts go together: refused', () => {
  const inconsistent = expect.objectContaining({ code: 'inconsistent' })
  const parts = [component('a', '1', '5'), component('b', '1', '5'), component('c', '1', '5')]
  const pair = (a: number, b: number, coefficient: string) => ({ between: [a, b] as const, coefficient })
  expect(() => combineUncertainty([], { factor: '2' })).toThrow(expect.objectContaining({ code: 'missing-reading' }))
  expect(() => combineUncertainty(parts, { factor: '2' }, [pair(0, 1, '1.1')])).toThrow(inconsistent)
  expect(() => combineUncertainty(parts, { factor: '2' }, [pair(0, 9, '1')])).toThrow(inconsistent)
  expect(() => combineUncertainty(parts, { factor: '2' }, [pair(0, 1, '1'), pair(1, 0, '1')])).toThrow(inconsistent)
  expect(() =>
    combineUncertainty(parts, { factor: '2' }, [pair(0, 1, '-1'), pair(0, 2, '-1'), pair(1, 2, '-1')]),
  ).toThrow(inconsistent)
  expect(() => combineUncertainty(parts, { level: 0.95 }, [pair(0, 1, '0.5')])).toThrow(inconsistent)
  expect(() => combineUncertainty([component('a', '-1', null)], { factor: '2' })).toThrow(
    expect.objectContaining({ code: 'not-positive' }),
  )
})

const parts = fc.array(
  fc.record({
    name: fc.constant('part'),
    sensitivity: fc.integer({ min: -1000, max: 1000 }).map((each) => (each / 100).toFixed(2)),
    standardUncertainty: fc.integer({ min: 0, max: 1000 }).map((each) => (each / 100).toFixed(2)),
    degreesOfFreedom: fc.option(fc.integer({ min: 1, max: 60 }).map(String)),
  }),
  { minLength: 1, maxLength: 6 },
)

test('effective degrees of freedom lie between the least and the sum of those that count', () => {
  fc.assert(
    fc.property(parts, (components) => {
      const found = combineUncertainty(components, { level: 0.95 })
      expect(found.expanded).toMatch(/^\d+(\.\d+)?$/)
      if (found.effectiveDegreesOfFreedom === null) return
      const counting = components.filter(
        ({ sensitivity, standardUncertainty }) => Number(sensitivity) * Number(standardUncertainty) !== 0,
      )
      const degrees = counting.map(({ degreesOfFreedom }) => Number(degreesOfFreedom ?? Infinity))
      const effective = Number(found.effectiveDegreesOfFreedom)
      expect(effective).toBeGreaterThanOrEqual(Math.min(...degrees) * (1 - 1e-12))
      expect(effective).toBeLessThanOrEqual(degrees.reduce((sum, each) => sum + each, 0) * (1 + 1e-12))
    }),
  )
})
