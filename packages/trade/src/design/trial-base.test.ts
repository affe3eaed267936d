import { expect, test } from 'vitest'
import { suggestedWater } from './trial-base.ts'

test('water goes down by half a per cent for each per cent of emulsion more, as a series of five contents is mixed', () => {
  const cup = { emulsionPercent: '12', waterPercent: '10' }
  expect(['10', '11', '12', '13', '14'].map((content) => suggestedWater(cup, content))).toEqual([
    '11',
    '10.5',
    '10',
    '9.5',
    '9',
  ])
})
test('water is never less than none, and the step may be another', () => {
  expect(suggestedWater({ emulsionPercent: '12', waterPercent: '1' }, '20')).toBe('0')
  expect(suggestedWater({ emulsionPercent: '12', waterPercent: '10' }, '14.5', '0')).toBe('10')
})
