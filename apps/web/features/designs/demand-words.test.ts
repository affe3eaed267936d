import { expect, test } from 'vitest'
import { enoughOf, halfKilogramsUp, kilograms } from './demand-words.ts'

test.each([
  ['39705.1009', '39.7051009'],
  ['4496', '4.496'],
  ['60.2', '0.0602'],
  ['500', '0.5'],
  ['10000', '10'],
  ['0', '0'],
])('%s g are %s kg', (grams, kg) => {
  expect(kilograms(grams)).toBe(kg)
})

test('what is not on record is not called enough', () => {
  expect([null, '0', '51'].map((shortG) => enoughOf({ shortG }))).toEqual(['unknown', 'enough', 'short'])
})

test('a client is asked for the next half kilogram', () => {
  expect(['39705.1', '4496', '60.2', '500'].map(halfKilogramsUp)).toEqual(['40', '4.5', '0.5', '0.5'])
})
