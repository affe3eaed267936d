import type { Curve, RangeEnd } from '@curebook/contract/range'
import { describe, expect, test } from 'vitest'
import { bandOf, curveGroups, excludedMeanRows, pointRows, statisticsByUnit, wordedProperty } from './curve-groups.ts'

const point = (testId: string) => ({
  testId,
  resultId: `r-${testId}`,
  code: testId,
  label: '10-1',
  mixId: 'm10',
  emulsionPercent: '10',
  x: '6.26',
  y: '618',
  flags: [],
})
const mean = (emulsionPercent: string) => ({
  mixId: `m${emulsionPercent}`,
  emulsionPercent,
  x: '6.2',
  y: '600',
  n: 3,
  standardDeviation: '12',
  range: '24',
})
const curve = (own: Partial<Curve>): Curve => ({
  key: 'h1',
  methodKey: 'abrasion',
  property: 'abrasion-loss',
  soak: '1-hour',
  label: 'Abrasion, 1-hour soak',
  unit: 'g/m²',
  sense: 'max',
  limit: null,
  points: [point('a')],
  means: [mean('10')],
  excluded: [],
  meansWithExcluded: [],
  crossing: null,
  flags: [],
  ...own,
})
const end = (residualPercent: string | null): RangeEnd => ({
  kind: residualPercent === null ? 'open' : 'crossing',
  residualPercent,
  emulsionPercent: null,
  setBy: '',
  sentence: '',
  calculation: null,
})

describe('charts', () => {
  test('both soaks share a chart; another property, or the same in another unit, has its own', () => {
    const groups = curveGroups([
      curve({}),
      curve({ key: 'd6', soak: '6-day' }),
      curve({ key: 'sand', property: 'sand-adhesion' }),
      curve({ key: 'us', unit: 'g/ft²' }),
    ])
    expect(groups.map((group) => group.map(({ key }) => key))).toEqual([['h1', 'd6'], ['sand'], ['us']])
  })
  test('a curve without points is not drawn', () => {
    expect(curveGroups([curve({ points: [] })])).toEqual([])
  })
})

describe('the band of the acceptable range', () => {
  test('stands between two ends that stand', () => {
    expect(bandOf({ minimum: end('6.9'), maximum: end('8.3') }, 'Range')).toEqual([
      { key: 'range', from: 6.9, to: 8.3, label: 'Range' },
    ])
  })
  test('is not drawn towards an open end', () => {
    expect(bandOf({ minimum: end('6.9'), maximum: end(null) }, 'Range')).toEqual([])
  })
  test('is not drawn where the minimum lies above the maximum, by number and not by letter', () => {
    expect(bandOf({ minimum: end('10.1'), maximum: end('9.9') }, 'Range')).toEqual([])
  })
})

test('statistics stand by content, lean first, in one table a unit', () => {
  const tables = statisticsByUnit([
    curve({ means: [mean('10'), mean('9.5')] }),
    curve({ key: 'us', unit: 'g/ft²' }),
    curve({ key: 'none', means: [], unit: 'g' }),
  ])
  expect(tables.map(({ unit }) => unit)).toEqual(['g/m²', 'g/ft²'])
  expect(tables[0]?.rows.map(({ mean: { emulsionPercent } }) => emulsionPercent)).toEqual(['9.5', '10'])
})

test('what does not count has its row after what does, and a curve of nothing else is drawn', () => {
  const { flags: _, ...result } = point('v')
  const excluded = [{ ...result, kind: 'void' as const, reason: 'Felt tore', by: 'Ada' }]
  expect(pointRows([curve({ excluded })]).map(({ point: { testId } }) => testId)).toEqual(['a', 'v'])
  expect(curveGroups([curve({ points: [], excluded })])).toHaveLength(1)
  const calculation = { schema: 1 as const, lines: [] }
  const both = { mixId: 'm10', emulsionPercent: '10', counting: null, withExcluded: { y: '600', n: 1 }, calculation }
  expect(excludedMeanRows([curve({}), curve({ excluded, meansWithExcluded: [both] })])).toMatchObject([{ mean: both }])
})

test('every point of every curve has its row', () => {
  expect(
    pointRows([curve({}), curve({ key: 'd6', points: [point('b')] })]).map(({ point: { testId } }) => testId),
  ).toEqual(['a', 'b'])
})

test('a chart is titled by its own property, and by its label where there is no word for that', () => {
  expect(wordedProperty('wearing')).toBe('wearing')
  expect(wordedProperty('displacement')).toBeUndefined()
})
