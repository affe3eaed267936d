import fc from 'fast-check'
import { expect, test } from 'vitest'
import { decimal } from './decimal.ts'
import { roundToFigures, roundToStep } from './round-to-step.ts'
import { round, type RoundingRule } from './rounding.ts'

test('rounds to the nearest 1, 5, 10, 0.05 by the rule named, with the decimals of the step', () => {
  expect(roundToStep('812.5', '1', 'half-even')).toBe('812')
  expect(roundToStep('812.5', '5', 'half-even')).toBe('810')
  expect(roundToStep('817.5', '5', 'half-even')).toBe('820')
  expect(roundToStep('812.5', '5', 'half-up')).toBe('815')
  expect(roundToStep('815', '10', 'half-even')).toBe('820')
  expect(roundToStep('805', '10', 'half-even')).toBe('800')
  expect(roundToStep('1.025', '0.05', 'half-even')).toBe('1.00')
  expect(roundToStep('1.075', '0.05', 'half-even')).toBe('1.10')
  expect(roundToStep('41.01', '1', 'up')).toBe('42')
  expect(roundToStep('41', '1', 'up')).toBe('41')
  expect(roundToStep('-0.04', '0.1', 'truncate')).toBe('0.0')
  expect(roundToStep('7.9', '0.25', 'truncate')).toBe('7.75')
})

test('ASTM E29 rounds to the nearest 50 by doubling, rounding and halving: the same multiples', () => {
  for (const value of ['6025', '6075', '6050', '6024.9', '6025.1', '5975'])
    expect(roundToStep(value, '50', 'half-even')).toBe(
      decimal(roundToStep(decimal(value).times(2).toFixed(), '100', 'half-even'))
        .div(2)
        .toFixed(),
    )
})

test('rounds in one step: what lies below a half does not become one first', () => {
  // By way of one decimal: 2.45 → 2.5 → 5.
  expect(roundToStep('2.45', '5', 'half-up')).toBe('0')
  expect(roundToFigures('2.3449', 2, 'half-up')).toBe('2.3')
})

test('rounds to significant figures, and a figure gained on the way is not shown', () => {
  expect(roundToFigures('2.344', 2, 'half-even')).toBe('2.3')
  expect(roundToFigures('9.96', 2, 'half-even')).toBe('10')
  expect(roundToFigures('0.09996', 3, 'half-even')).toBe('0.100')
  expect(roundToFigures('618.5', 3, 'half-even')).toBe('618')
  expect(roundToFigures('12345', 2, 'half-up')).toBe('12000')
  expect(roundToFigures('-99950', 3, 'half-up')).toBe('-100000')
  expect(roundToFigures('0.000', 3, 'half-up')).toBe('0')
})

test('what is no number or no step is refused', () => {
  expect(() => roundToStep('12,4', '1', 'half-even')).toThrow(expect.objectContaining({ code: 'inconsistent' }))
  expect(() => roundToStep('12.4', '0', 'half-even')).toThrow(expect.objectContaining({ code: 'not-positive' }))
  expect(() => roundToStep('12.4', '-5', 'half-even')).toThrow(expect.objectContaining({ code: 'not-positive' }))
  expect(() => roundToFigures('12.4', 0, 'half-even')).toThrow(expect.objectContaining({ code: 'inconsistent' }))
})

const numbers = fc
  .tuple(fc.bigInt({ min: -(10n ** 18n), max: 10n ** 18n }), fc.integer({ min: 0, max: 10 }))
  .map(([whole, places]) => decimal(whole.toString()).div(decimal(10).pow(places)).toFixed())
const steps = fc.constantFrom('1', '5', '10', '50', '0.05', '0.1', '0.5', '0.25', '2.5')
const rules = fc.constantFrom<Exclude<RoundingRule, 'none'>>('half-even', 'half-up', 'up', 'truncate')

test('a number rounded again stays, is a multiple of the step and moved by less than one; half a step at most to the nearest', () => {
  fc.assert(
    fc.property(numbers, steps, rules, (digits, step, rule) => {
      const once = roundToStep(digits, step, rule)
      const moved = decimal(once).minus(digits).abs()
      expect(roundToStep(once, step, rule)).toBe(once)
      expect(decimal(once).mod(step).isZero()).toBe(true)
      expect(moved.lt(step)).toBe(true)
      if (rule === 'half-even' || rule === 'half-up') expect(moved.times(2).lte(step)).toBe(true)
    }),
  )
})

test('a step of 1, 0.1, 0.01 … is rounding to decimals', () => {
  fc.assert(
    fc.property(numbers, fc.integer({ min: 0, max: 6 }), rules, (digits, decimals, rule) => {
      const step = decimals === 0 ? '1' : `0.${'0'.repeat(decimals - 1)}1`
      expect(roundToStep(digits, step, rule)).toBe(round(digits, decimals, rule))
    }),
  )
})

test('significant figures agree with the decimal library', () => {
  fc.assert(
    fc.property(numbers, fc.integer({ min: 1, max: 12 }), (digits, figures) => {
      expect(
        decimal(roundToFigures(digits, figures, 'half-even')).eq(decimal(digits).toSignificantDigits(figures)),
      ).toBe(true)
    }),
  )
})
