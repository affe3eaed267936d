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
