import { expect, test } from 'vitest'
import { cutTo, shownDecimals } from './shown-decimals.ts'

test('0.1 g weighed is seen in either unit of a mass per area', () => {
  // Factors of the reference class, from memory: 32.9 g/m² and 3.06 g/ft² for each g.
  expect((0.1 * 32.9).toFixed(shownDecimals('g/m²'))).toBe('3.3')
  expect((0.1 * 3.06).toFixed(shownDecimals('g/ft²'))).toBe('0.31')
})

test('a mean of two torques stands as it is, a longer one is cut to the second decimal', () => {
  // (12.5 + 13.0) ÷ 2 and (12.5 + 13.0 + 12.0) ÷ 3 kg·cm
  expect(cutTo('kg·cm', '12.75')).toBeUndefined()
  expect(cutTo('kg·cm', '12.66666666666666666666666666666667')).toBe(2)
})
