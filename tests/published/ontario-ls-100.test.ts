import { round } from '@curebook/trade/quantity/rounding'
import { expect, test } from 'vitest'

// Source: Ontario Ministry of Transportation, test method LS-100: halves up, in one step.
test('1.347 to one decimal is 1.3, never 1.35 and then 1.4', () => {
  expect(round('1.347', 1, 'half-up')).toBe('1.3')
})
