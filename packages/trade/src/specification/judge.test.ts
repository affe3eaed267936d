import fc from 'fast-check'
import { expect, test } from 'vitest'
import { decimal } from '../quantity/decimal.ts'
import type { RoundingRule } from '../quantity/rounding.ts'
import { judge, limitWords } from './judge.ts'

const limit = (value: string | null, unit: string, sense: 'max' | 'min' = 'max', rounding: RoundingRule = 'none') =>
  ({ value, unit, sense, rounding, decisionRule: 'simple acceptance' }) as const
const product = (loss: string, factor: string) => decimal(loss).times(factor).toFixed()

test('the same loss can be over a limit in one unit and under it in the other: each is judged in its own (C2)', () => {
  const feet = limit('50', 'g/ft²')
  const metres = limit('538', 'g/m²')
  const at = (loss: string) => [
    judge(feet, { value: product(loss, '3.06'), unit: 'g/ft²' }).verdict,
    judge(metres, { value: product(loss, '32.9'), unit: 'g/m²' }).verdict,
  ]
  expect(product('16.35', '3.06')).toBe('50.031')
  expect(product('16.35', '32.9')).toBe('537.915')
  expect(at('16.35')).toEqual(['fail', 'pass'])
  expect(at('16.36')).toEqual(['fail', 'fail'])
  expect(at('16.33')).toEqual(['pass', 'pass'])
})

test('the rounding method turns a value just over a limit into a pass, and the rule is said', () => {
  const rounded = limit('50', 'g/ft²', 'max', 'half-even')
  expect(judge(rounded, { value: '50.031', unit: 'g/ft²' })).toEqual({
    verdict: 'pass',
    margin: '0',
    compared: '50',
    sentence:
      '50 g/ft² meets the limit, at most 50 g/ft²: rounded to the last place of the limit, halves to even (rounding method of ASTM E29), simple acceptance.',
  })
  expect(judge(rounded, { value: '50.5', unit: 'g/ft²' }).verdict).toBe('pass')
  expect(judge(limit('50', 'g/ft²', 'max', 'half-up'), { value: '50.5', unit: 'g/ft²' }).verdict).toBe('fail')
})

test('a value on the limit passes, and one beside it is shown with the places that tell it from the limit', () => {
  expect(judge(limit('20', 'kg·cm', 'min'), { value: '20.0', unit: 'kg·cm' })).toMatchObject({
    verdict: 'pass',
    margin: '0',
  })
  expect(judge(limit('538', 'g/m²'), { value: '538.0004', unit: 'g/m²' }, ',')).toMatchObject({
    verdict: 'fail',
    margin: '-0.0004',
    sentence: expect.stringContaining('538,0004 g/m² does not meet the limit, at most 538 g/m²'),
  })
  expect(judge(limit('538', 'g/m²'), { value: '481.4366666', unit: 'g/m²' }).sentence).toBe(
    '481.4 g/m² meets the limit, at most 538 g/m²: compared unrounded (absolute method of ASTM E29), simple acceptance.',
  )
})

test('without a limit, or in another unit, nothing is decided', () => {
  expect(judge(limit(null, 'points'), { value: '11', unit: 'points' }).verdict).toBe('undecided')
  expect(judge(limit('538', 'g/m²'), { value: '50', unit: 'g/ft²' })).toMatchObject({
    verdict: 'undecided',
    margin: null,
    sentence: expect.stringContaining('compared in its own unit'),
  })
  expect(limitWords(limit(null, 'points'))).toBe('no limit held')
})

const U = { expanded: '2', coverageFactor: '2', source: 'own budget' }

test('a ratio has no unit in words', () => {
  expect(limitWords(limit('2.10', '1'))).toBe('at most 2.10')
  expect(judge(limit('2.10', '1'), { value: '2.04', unit: '1' }).sentence).toMatch(
    /^2\.04 meets the limit, at most 2\.10:/,
  )
})

test('a guard band moves the end by U, and its acceptance limit is said', () => {
  // ILAC-G8:09/2019: acceptance limit = limit − U at an upper end; limit 90, u = 1, k = 2.
  const guarded = { ...limit('90', 's'), decisionRule: 'guard band', uncertainty: U } as const
  expect(judge(guarded, { value: '88', unit: 's' })).toMatchObject({ verdict: 'pass', margin: '0' })
  expect(judge(guarded, { value: '88.1', unit: 's' })).toEqual({
    verdict: 'fail',
    margin: '-0.1',
    compared: '88.1',
    sentence:
      '88.1 s does not meet the limit, at most 90 s, acceptance limit 88 s: compared unrounded (absolute method of ASTM E29), guard band of U = 2 s, k = 2 (own budget; ILAC-G8:09/2019).',
  })
  expect(judge({ ...guarded, sense: 'min' }, { value: '91.9', unit: 's' }).verdict).toBe('fail')
  expect(judge({ ...guarded, uncertainty: null }, { value: '10', unit: 's' })).toMatchObject({
    verdict: 'undecided',
    sentence: 'The guard band rule takes an uncertainty, and none is held for this limit.',
  })
})

test('a rounded value is rounded to the last place of what it is compared with, and not of the limit alone', () => {
  const own = { expanded: '0.7', coverageFactor: '2', source: 'own budget' }
  // 538 − 0.7 = 537.3: to the place of 538 the value would be 537, inside it.
  const guarded = { ...limit('538', 'g/m²', 'max', 'half-even'), decisionRule: 'guard band', uncertainty: own } as const
  const at = (value: string) => judge(guarded, { value, unit: 'g/m²' })
  expect(at('537.4')).toMatchObject({ verdict: 'fail', compared: '537.4', margin: '-0.1' })
  expect(at('537.34')).toMatchObject({ verdict: 'pass', compared: '537.3', margin: '0' })
  expect(at('537.4').sentence).toContain('rounded to the last place of the acceptance limit, halves to even')
  const binary = { ...guarded, decisionRule: 'non-binary' } as const
  expect(judge(binary, { value: '537.4', unit: 'g/m²' })).toMatchObject({
    verdict: 'undecided',
    compared: '537.4',
    sentence: expect.stringContaining('to the last place of the limit or of U, the finer of the two'),
  })
  // A limit that is finer than U keeps its place, and simple acceptance its rule.
  expect(judge({ ...guarded, value: '538.00' }, { value: '537.304', unit: 'g/m²' }).compared).toBe('537.30')
  const simple = judge({ ...guarded, decisionRule: 'simple acceptance' }, { value: '538.4', unit: 'g/m²' })
  expect(simple).toMatchObject({ verdict: 'pass', compared: '538' })
})

test('under the non-binary rule what lies within U of the limit is conditional, and so decides nothing', () => {
  const rule = { ...limit('90', 's'), decisionRule: 'non-binary', uncertainty: U } as const
  const at = (value: string) => judge(rule, { value, unit: 's' })
  expect(['87.9', '88', '90', '90.1', '92', '92.1'].map((value) => at(value).verdict)).toEqual([
    'pass',
    'undecided',
    'undecided',
    'undecided',
    'undecided',
    'fail',
  ])
  expect(at('89').sentence).toContain('is a conditional pass, within U of the limit, at most 90 s')
  expect(at('91').sentence).toContain('is a conditional fail, within U of the limit')
})

test('of two ends the nearer one gives the margin', () => {
  const between = { ...limit('40', 'dmm'), sense: 'between', upper: '90' } as const
  const at = (value: string) => judge(between, { value, unit: 'dmm' })
  expect(limitWords(between)).toBe('40 to 90 dmm')
  expect(at('66')).toMatchObject({ verdict: 'pass', margin: '24' })
  expect(at('40')).toMatchObject({ verdict: 'pass', margin: '0' })
  expect(at('39.9')).toMatchObject({ verdict: 'fail', margin: '-0.1' })
  expect(at('90.5').verdict).toBe('fail')
  expect(judge({ ...between, rounding: 'half-even' }, { value: '90.5', unit: 'dmm' }).verdict).toBe('pass')
})

test('verdicts by an uncertainty are those of the named rules for every value', () => {
  const hundredths = fc.nat({ max: 20_000 })
  const rules = fc.constantFrom('simple acceptance' as const, 'guard band' as const, 'non-binary' as const)
  const senses = fc.constantFrom('max' as const, 'min' as const)
  fc.assert(
    fc.property(hundredths, hundredths, rules, senses, (value, bound, decisionRule, sense) => {
      const digits = (whole: number) => decimal(whole).div(100).toFixed()
      const held = { ...limit(digits(bound), 's', sense), decisionRule, uncertainty: U }
      // Whole hundredths: how far inside the limit, U being 200 of them.
      const inside = sense === 'max' ? bound - value : value - bound
      const expected = {
        'simple acceptance': inside >= 0 ? 'pass' : 'fail',
        'guard band': inside >= 200 ? 'pass' : 'fail',
        'non-binary': inside > 200 ? 'pass' : inside < -200 ? 'fail' : 'undecided',
      }
      expect(judge(held, { value: digits(value), unit: 's' }).verdict).toBe(expected[decisionRule])
    }),
  )
})

test('verdict and margin agree for every value', () => {
  const digits = fc
    .tuple(fc.nat({ max: 100_000 }), fc.nat({ max: 999 }))
    .map(([whole, part]) => `${whole}.${String(part).padStart(3, '0')}`)
  fc.assert(
    fc.property(digits, digits, fc.constantFrom<'max' | 'min'>('max', 'min'), (value, bound, sense) => {
      const { verdict, margin } = judge(limit(bound, 's', sense), { value, unit: 's' })
      const meets = sense === 'max' ? decimal(value).lte(bound) : decimal(value).gte(bound)
      expect(verdict).toBe(meets ? 'pass' : 'fail')
      expect(
        decimal(margin ?? 'NaN')
          .abs()
          .eq(decimal(value).minus(bound).abs()),
      ).toBe(true)
    }),
  )
})
