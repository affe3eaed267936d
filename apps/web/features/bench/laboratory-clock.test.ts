import { expect, test } from 'vitest'
import { clockOffset, isWorthSaying } from './laboratory-clock.ts'

test('the offset is what the laboratory’s clock is ahead of the device when the answer came', () => {
  const at = Date.parse('2026-03-05T08:00:00Z')
  expect(clockOffset('2026-03-05T08:00:05Z', at)).toBe(5_000)
  expect(clockOffset('2026-03-05T07:59:00Z', at)).toBe(-60_000)
})

test('a device more than two seconds off is told so, either way', () => {
  expect([2_000, -2_000, 0].filter(isWorthSaying)).toEqual([])
  expect([2_001, -2_001, 3_600_000].filter(isWorthSaying)).toHaveLength(3)
})
