import { round } from '@curebook/trade/quantity/rounding'
import { expect, test } from 'vitest'

// Source: Alberta Transportation, test procedure ATT-70, examples of the rounding procedure of ASTM E29.
const examples: readonly (readonly [value: string, decimals: number, reported: string])[] = [
  ['5.765', 2, '5.76'],
  ['5.755', 2, '5.76'],
  ['5.781', 2, '5.78'],
  ['5.688', 2, '5.69'],
  ['51.2', 0, '51'],
  ['50.49', 0, '50'],
  ['50.5', 0, '50'],
  ['51.5', 0, '52'],
  ['51.51', 0, '52'],
  ['13.12', 1, '13.1'],
  ['13.25', 1, '13.2'],
  ['13.35', 1, '13.4'],
  ['97.55', 1, '97.6'],
  ['97.65', 1, '97.6'],
  ['97.12', 1, '97.1'],
  ['97.52', 1, '97.5'],
  ['2350.12', 0, '2350'],
  ['2350.82', 0, '2351'],
  ['2350.5', 0, '2350'],
  ['2351.5', 0, '2352'],
  ['2350.51', 0, '2351'],
  ['2350.49', 0, '2350'],
  ['5.684', 2, '5.68'],
  ['5.686', 2, '5.69'],
  ['5.6750', 2, '5.68'],
  ['5.6850', 2, '5.68'],
  ['5.6852', 2, '5.69'],
]

test.each(examples)('%s to %i decimals is %s, halves to even', (value, decimals, reported) => {
  expect(round(value, decimals, 'half-even')).toBe(reported)
})
