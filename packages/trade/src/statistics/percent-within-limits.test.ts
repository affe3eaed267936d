import fc from 'fast-check'
import { expect, test } from 'vitest'
import { percentOf, percentWithinLimits, qualityIndexOf } from './percent-within-limits.ts'

test('four results: the exact estimator is the straight line 50 + 100 Q ÷ 3', () => {
  for (const index of [-1.5, -1, -0.2, 0, 0.3, 1, 1.2, 1.5, 2])
    expect(Number(percentOf(index, 4, 'exact beta'))).toBeCloseTo(
      Math.min(100, Math.max(0, 50 + (100 * index) / 3)),
      10,
    )
})

test('three results: all within from Q = 2 ÷ √3 on', () => {
  expect(percentOf(1.1548, 3, 'exact beta')).toBe('100')
  expect(Number(percentOf(1.1546, 3, 'exact beta'))).toBeLessThan(100)
})

test('a negative index is the rest to 100, in both conventions', () => {
  for (const convention of ['exact beta', 'table, next higher'] as const)
    for (const index of [0.1, 0.73, 1.1])
      expect(Number(percentOf(index, 5, convention)) + Number(percentOf(-index, 5, convention))).toBeCloseTo(100, 10)
})

test('the table is read at the next higher whole per cent, and on a row at that row', () => {
  const row = qualityIndexOf(82, 5)
  expect(percentOf(row.toNumber(), 5, 'table, next higher')).toBe('82')
  expect(percentOf(row.plus('0.0001').toNumber(), 5, 'table, next higher')).toBe('83')
  expect(percentOf(9, 5, 'table, next higher')).toBe('100')
  expect(percentOf(0, 5, 'table, next higher')).toBe('50')
})

test('both limits: PL + PU − 100', () => {
  const values = ['96.0', '97.0', '99.0', '100.0']
  const found = percentWithinLimits(values, { lower: '96.3', upper: '101.3' }, 'exact beta')
  expect(Number(found.percentWithin)).toBeCloseTo(Number(found.lower?.percent) + Number(found.upper?.percent) - 100, 10)
  expect(percentWithinLimits(values, { lower: '97.9', upper: '98.0' }, 'table, next higher').percentWithin).toMatch(
    /^\d+$/,
  )
})

test('where nothing scatters the lot lies where its results lie; on a limit is within', () => {
  const same = ['5', '5', '5']
  expect(percentWithinLimits(same, { lower: '5' }, 'exact beta').percentWithin).toBe('100')
  expect(percentWithinLimits(same, { lower: '5.1' }, 'exact beta').percentWithin).toBe('0')
  expect(percentWithinLimits(same, { lower: '4', upper: '4.9' }, 'exact beta').percentWithin).toBe('0')
})

test('too few results, no limit, limits crossed: refused', () => {
  expect(() => percentWithinLimits(['1', '2'], { lower: '0' }, 'exact beta')).toThrow(
    expect.objectContaining({ code: 'missing-reading' }),
  )
  expect(() => percentWithinLimits(['1', '2', '3'], {}, 'exact beta')).toThrow(
    expect.objectContaining({ code: 'missing-reading' }),
  )
  expect(() => percentWithinLimits(['1', '2', '3'], { lower: '3', upper: '2' }, 'exact beta')).toThrow(
    expect.objectContaining({ code: 'inconsistent' }),
  )
})

const indexes = fc.double({ min: -4, max: 4, noNaN: true })

test('the percentage never falls as the index rises, stays within 0 to 100, and the table is at most a per cent above', () => {
  fc.assert(
    fc.property(indexes, indexes, fc.integer({ min: 3, max: 12 }), (a, b, n) => {
      const [low, high] = a < b ? [a, b] : [b, a]
      const [less, more] = [low, high].map((index) => Number(percentOf(index, n, 'exact beta'))) as [number, number]
      expect(less).toBeLessThanOrEqual(more + 1e-9)
      expect(less).toBeGreaterThanOrEqual(0)
      expect(more).toBeLessThanOrEqual(100)
      const table = Number(percentOf(Math.abs(a), n, 'table, next higher'))
      const exact = Number(percentOf(Math.abs(a), n, 'exact beta'))
      // The table's indexes are cut to four decimals, which moves a row by a few thousandths of a per cent.
      expect(table - exact).toBeGreaterThan(-0.05)
      expect(table - exact).toBeLessThan(1.05)
    }),
    { numRuns: 40 },
  )
})
