import { expect, test } from 'vitest'
import { compareWithLimit } from './compare-with-limit.ts'

const even = { method: 'rounding', rule: 'half-even' } as const

// The examples that ASTM E29 gives of its rounding method, from memory, unverified: value, verdict.
test.each([
  ['57', 'min', '56.4', false],
  ['57', 'min', '56.5', false],
  ['57', 'min', '56.6', true],
  ['40', 'max', '40.4', true],
  ['40', 'max', '40.5', true],
  ['40', 'max', '40.6', false],
  ['0.5', 'max', '0.54', true],
  ['0.5', 'max', '0.55', false],
  ['0.5', 'max', '0.56', false],
] as const)('rounding method against %s %s: %s → %s', (limit, sense, value, meets) => {
  expect(compareWithLimit(value, { value: limit, sense }, even).meets).toBe(meets)
})

test('the absolute method drops no digit and says its name', () => {
  const compared = compareWithLimit('40.4', { value: '40', sense: 'max' }, { method: 'absolute' })
  expect(compared).toEqual({ meets: false, compared: '40.4', margin: '-0.4', words: 'absolute method' })
  expect(compareWithLimit('40', { value: '40', sense: 'max' }, { method: 'absolute' }).meets).toBe(true)
})

test('the last place of the limit as written decides, or a step that is named', () => {
  expect(compareWithLimit('4.25', { value: '4', sense: 'max' }, even)).toMatchObject({ meets: true, compared: '4' })
  expect(compareWithLimit('4.25', { value: '4.0', sense: 'max' }, even)).toMatchObject({
    meets: false,
    compared: '4.2',
  })
  const step = { method: 'rounding', rule: 'half-up', step: '5' } as const
  expect(compareWithLimit('542.4', { value: '540', sense: 'max' }, step)).toEqual({
    meets: true,
    compared: '540',
    margin: '0',
    words: 'rounding method, half-up, to 5',
  })
})

test('what is no number is refused', () => {
  const refusal = expect.objectContaining({ name: 'MethodInputError', code: 'inconsistent' })
  expect(() => compareWithLimit('wet', { value: '4', sense: 'max' }, even)).toThrow(refusal)
  expect(() => compareWithLimit('4', { value: '', sense: 'max' }, { method: 'absolute' })).toThrow(refusal)
})
