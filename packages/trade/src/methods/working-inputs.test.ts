import { expect, test } from 'vitest'
import { decimal } from '../quantity/decimal.ts'
import { practised } from './edition-parameter.ts'
import { outsideUsual } from './working-inputs.ts'

const usual = { least: practised('1.7', 'count', 'least'), most: practised('2.4', 'count', 'most') }
const about = (value: string, unit = '') => outsideUsual('A value', decimal(value), unit, usual)

test('both ends are usual, and an end that is absent is open', () => {
  for (const value of ['1.7', '2', '2.4']) expect(about(value)).toEqual([])
  expect(outsideUsual('A value', decimal('9'), '', { least: usual.least })).toEqual([])
})

test('outside, the sentence names value, end and source; a ratio has no unit', () => {
  expect(about('1.699')).toEqual([
    'A value of 1.70 is less than the usual 1.7 (common practice, no source); used all the same.',
  ])
  expect(about('2.5', '%')).toEqual([
    'A value of 2.50 % is more than the usual 2.4 % (common practice, no source); used all the same.',
  ])
})
