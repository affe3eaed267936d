import { expect, test } from 'vitest'
import { readableUnit, typedDigits, unitInWords } from './typed-digits.ts'

test('either decimal sign and the unit may be typed; nothing is cut', () => {
  expect(typedDigits('7,50', 'g')).toBe('7.50')
  expect(typedDigits(' 538 g/m² ', 'g/m²')).toBe('538')
  expect(typedDigits('11', 'points')).toBe('11')
})
test('what is no number stays as typed, to be refused in its own words', () => {
  expect(typedDigits('about 7', 'g')).toBe('about 7')
  expect(typedDigits(null, 'g')).toBe('')
})
test('a label names its unit in words', () => {
  expect(unitInWords('g/m²')).toBe('grams per square metre')
  expect(unitInWords('points')).toBe('points')
})
test('only units of the trade can be typed beside a number', () => {
  expect(readableUnit('g/ft²')).toBe('g/ft²')
  expect(readableUnit('points')).toBeUndefined()
})
