import { expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import { isNamedIn, panelClassValues, panelTestValues, type PanelTestPoint } from './panel-tests.ts'

const limit = { key: 'cohesion-30-min', label: 'Cohesion at 30 min', unit: 'kg·cm', sense: 'min', value: '12' } as const
const point = (value: string, emulsionPercent: string | null, more: Partial<PanelTestPoint> = {}): PanelTestPoint => ({
  limitKey: limit.key,
  methodKey: 'cohesion',
  testId: `t${value}`,
  resultId: `r${value}`,
  code: value,
  label: `12-${value}`,
  emulsionPercent,
  value,
  unit: 'kg·cm',
  ...more,
})
const panelTestValue = (...asked: Parameters<typeof panelTestValues>) => panelTestValues(...asked)[0]
const at = (content: string | null, ...methodKeys: string[]) => ({
  content,
  methodKeys: methodKeys.length > 0 ? methodKeys : ['cohesion'],
})

test('the tests of the content are averaged, those of others are left alone', () => {
  const found = panelTestValue(limit, [point('13', '12'), point('14', '12.0'), point('20', '14')], at('12'))
  expect(found).toMatchObject({ value: '13.5', unit: 'kg·cm', n: 2, emulsionPercent: '12' })
  expect(checkCalculation(found!.calculation, '13.5')).toEqual([])
  expect(panelTestValue(limit, [point('20', '14')], at('12'))).toBeUndefined()
})

test('while no content is recommended only a single content speaks', () => {
  expect(panelTestValue(limit, [point('13', '12'), point('14', '12')], at(null))).toMatchObject({ value: '13.5' })
  expect(panelTestValue(limit, [point('13', '12'), point('14', '13')], at(null))).toBeUndefined()
})

test('what depends on no content speaks for every one', () => {
  expect(panelTestValue(limit, [point('13', null)], at('12'))).toMatchObject({ value: '13', emulsionPercent: null })
})

test('two methods are not thrown together', () => {
  const points = [point('13', '12'), point('20', '12', { methodKey: 'cohesion-en' })]
  expect(panelTestValue(limit, points, at('12', 'cohesion-en', 'cohesion'))).toMatchObject({ value: '20', n: 1 })
})

test('another unit is converted exactly, or left as it is', () => {
  // 1.96133 N·m ÷ 0.0980665 N·m per kg·cm (standard gravity) = 20 kg·cm
  const newton = point('1.96133', '12', { unit: 'N·m' })
  const found = panelTestValue(limit, [newton], at('12'))
  expect(found).toMatchObject({ value: '20', unit: 'kg·cm' })
  expect(checkCalculation(found!.calculation, '20')).toEqual([])
  expect(panelTestValue(limit, [point('20', '12', { unit: 'mm' })], at('12'))).toMatchObject({ unit: 'mm' })
})

test('of a test with results of several units the one in the limit’s unit counts, and n is the number of tests', () => {
  // One extraction, ignition by AASHTO T 308, three bases: 7.492 % of total dry mix is 8.099 % of aggregate and filler.
  const shares = (unit: string) => ({ testId: 'one', unit })
  const bases = [
    point('7.492', '12', shares('% of total dry mix')),
    point('8.099', '12', shares('% of dry aggregate and filler')),
    point('8.180', '12', shares('% of dry aggregate')),
  ]
  for (const { value, unit } of bases) {
    const [found] = panelTestValues({ ...limit, unit }, bases, at('12'))
    expect(found).toMatchObject({ value, unit, n: 1 })
    expect(found!.calculation.lines).toHaveLength(1)
  }
  // None of several is taken for a limit in another unit, and none of them is averaged with another.
  expect(panelTestValues({ ...limit, unit: 'mm' }, bases, at('12'))).toEqual([])
  // The only one that there is stands, and is judged as undecided.
  expect(panelTestValues({ ...limit, unit: 'mm' }, bases.slice(0, 1), at('12'))).toMatchObject([
    { value: '7.492', unit: '% of total dry mix' },
  ])
})

test('tests in two units that convert are converted each before their mean', () => {
  // 1.96133 N·m = 20 kg·cm exactly; (20 + 14) ÷ 2
  const found = panelTestValue(limit, [point('1.96133', '12', { unit: 'N·m' }), point('14', '12')], at('12'))
  expect(found).toMatchObject({ value: '17', unit: 'kg·cm', n: 2 })
  expect(checkCalculation(found!.calculation, '17')).toEqual([])
  expect(panelTestValue(limit, [point('20', '12', { unit: 'mm' }), point('14', '12')], at('12'))).toBeUndefined()
})

test('the tests of every method there are given, the first one in front; others are asked for its content', () => {
  const points = [point('13', '12'), point('20', '12', { methodKey: 'cohesion-en' })]
  const found = panelTestValues(limit, points, at('12', 'cohesion-en', 'cohesion'))
  expect(found.map(({ methodKey, value }) => [methodKey, value])).toEqual([
    ['cohesion-en', '20'],
    ['cohesion', '13'],
  ])
  const apart = [point('13', '14'), point('20', '12', { methodKey: 'cohesion-en' })]
  expect(panelTestValues(limit, apart, at(null, 'cohesion-en', 'cohesion'))).toMatchObject([{ value: '20' }])
})

test('a limit names a method by its designation, of whatever year, and no other of a longer number', () => {
  const method = (...designations: string[]) => ({ editions: designations.map((designation) => ({ designation })) })
  const named = { method: 'EN 12274-2:2018' }
  expect(isNamedIn(named, method('EN 12274-2, extraction by EN 12697-1'))).toBe(true)
  expect(isNamedIn({ method: 'ASTM D3910' }, method('ISSA TB-139; ASTM D3910'))).toBe(true)
  expect(isNamedIn(named, method('EN 12274-20', 'AASHTO T 308'))).toBe(false)
  expect(isNamedIn({ method: null }, method('EN 12274-2'))).toBe(false)
})

test('classes meet a limit where every test is in one that does', () => {
  const cup = (label: string, passes: boolean) => {
    const { value: _, unit: __, ...found } = point(label, '12')
    return { ...found, words: passes ? 'pass' : 'fail', passes }
  }
  expect(panelClassValues(limit, [cup('1', true), cup('2', true)], at('12'))).toMatchObject([{ n: 2, passes: true }])
  expect(panelClassValues(limit, [cup('1', true), cup('2', false)], at('12'))).toMatchObject([
    { n: 2, passes: false, words: 'pass (12-1), fail (12-2)' },
  ])
  expect(panelClassValues(limit, [cup('1', true)], at('14'))).toEqual([])
})
