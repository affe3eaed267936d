import { expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import { analyseCurve } from './curve.ts'
import { meansWithExcluded } from './excluded-results.ts'

const result = (emulsionPercent: string, replicate: number, y: string) => ({
  testId: `${emulsionPercent}-${replicate}`,
  resultId: `result-${emulsionPercent}-${replicate}`,
  code: '',
  label: `${emulsionPercent}-${replicate}`,
  mixId: `mix-${emulsionPercent}`,
  emulsionPercent,
  x: '6',
  y,
  flags: [],
})
const curve = analyseCurve({
  key: 'h1',
  label: 'Abrasion, 1-hour soak',
  property: 'abrasion-loss',
  soak: '1-hour',
  bears: 'minimum',
  unit: 'g/m²',
  limit: null,
  points: [result('12', 1, '600'), result('12', 2, '640'), result('14', 1, '400')],
})

test('both means of a content are given, with the working of the one that does not count', () => {
  const [found, ...others] = meansWithExcluded(curve, [result('12', 3, '800')])
  expect(others).toEqual([])
  expect(found).toMatchObject({
    emulsionPercent: '12',
    counting: { y: '620', n: 2 },
    withExcluded: { y: '680', n: 3 },
  })
  expect(found && checkCalculation(found.calculation, '680')).toEqual([])
  expect(curve.means[0]).toMatchObject({ y: '620', n: 2 })
})

test('a content of which nothing counts has no mean that does; contents stand from lean to rich', () => {
  const found = meansWithExcluded(curve, [result('14', 2, '300'), result('9.5', 1, '900')])
  expect(found.map(({ emulsionPercent, counting }) => [emulsionPercent, counting])).toEqual([
    ['9.5', null],
    ['14', { y: '400', n: 1 }],
  ])
})
