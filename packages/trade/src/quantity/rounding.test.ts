import fc from 'fast-check'
import { expect, test } from 'vitest'
import { Decimal, decimal } from './decimal.ts'
import { displayDigits, displayQuantity } from './display.ts'
import { round, type RoundingRule } from './rounding.ts'

test('a half goes to the even digit under ASTM E29, away from zero under half-up', () => {
  expect(round('0.5', 0, 'half-even')).toBe('0')
  expect(round('1.5', 0, 'half-even')).toBe('2')
  expect(round('2.5', 0, 'half-even')).toBe('2')
  expect(round('2.5', 0, 'half-up')).toBe('3')
  expect(round('-2.5', 0, 'half-up')).toBe('-3')
  expect(round('2.500000000000000000000000000001', 0, 'half-even')).toBe('3')
})

test('up goes away from zero, truncate drops digits, none leaves all', () => {
  expect(round('537.01', 0, 'up')).toBe('538')
  expect(round('537.99', 0, 'truncate')).toBe('537')
  expect(round('-0.04', 1, 'truncate')).toBe('0.0')
  expect(round('537.990', 0, 'none')).toBe('537.990')
})

test('rounding keeps the decimals asked for and is done in one step', () => {
  expect(round('618.52', 1, 'half-even')).toBe('618.5')
  expect(round('80', 2, 'half-even')).toBe('80.00')
  // In two steps (0.45 → 0.5 → 1) it would come out as 1.
  expect(round('0.45', 0, 'half-up')).toBe('0')
})

const numbers = fc
  .tuple(fc.bigInt({ min: -(10n ** 20n), max: 10n ** 20n }), fc.integer({ min: 0, max: 12 }))
  .map(([whole, places]) => decimal(whole.toString()).div(decimal(10).pow(places)).toFixed())
const rules = fc.constantFrom<RoundingRule>('half-even', 'half-up', 'up', 'truncate')

test('rounding an already rounded number changes nothing, and moves no number by a whole last step', () => {
  fc.assert(
    fc.property(numbers, fc.integer({ min: 0, max: 8 }), rules, (digits, decimals, rule) => {
      const once = round(digits, decimals, rule)
      const step = decimal(10).pow(-decimals)
      expect(round(once, decimals, rule)).toBe(once)
      expect(decimal(once).minus(digits).abs().lt(step)).toBe(true)
    }),
  )
})

test('digits are shown as typed, with the decimal sign asked for, and are never grouped', () => {
  expect(displayDigits('12.30')).toBe('12.30')
  expect(displayDigits('1234567.5', { sign: ',' })).toBe('1234567,5')
  expect(displayDigits('618.52', { decimals: 1, sign: ',' })).toBe('618,5')
  expect(displayDigits('-3.1')).toBe('−3.1')
  expect(displayQuantity('618.52', 'g/m²', { decimals: 1 })).toBe('618.5\u00a0g/m²')
  // A count and a quantity of dimension one are plain numbers.
  expect(displayQuantity('100', 'count')).toBe('100')
  expect(displayQuantity('2.31', '1')).toBe('2.31')
})

test('agrees with the decimal library on any digits, decimals and rule', () => {
  const modes = {
    'half-even': Decimal.ROUND_HALF_EVEN,
    'half-up': Decimal.ROUND_HALF_UP,
    up: Decimal.ROUND_UP,
    truncate: Decimal.ROUND_DOWN,
    none: Decimal.ROUND_DOWN,
  }
  fc.assert(
    fc.property(numbers, fc.integer({ min: 0, max: 12 }), rules, (digits, decimals, rule) => {
      const rounded = decimal(digits).toFixed(decimals, modes[rule])
      expect(round(digits, decimals, rule)).toBe(Number(rounded) === 0 ? rounded.replace('-', '') : rounded)
    }),
  )
})
