import { describe, expect, test } from 'vitest'
import { dayOf, formatDay, formatInstant, formatSpan, instantAt } from './laboratory-time.ts'

describe('times on screen', () => {
  const at = '2026-03-05T21:32:05Z'
  test('a time shows in the zone of the laboratory, day before month, with its weekday', () => {
    expect(formatInstant(at, 'long', 'America/Denver')).toBe('Thu 5 Mar 2026, 14:32')
    expect(formatInstant(at, 'short', 'Europe/Madrid')).toBe('Thu 5 Mar, 22:32')
    expect(formatInstant(at, 'clock', 'America/Denver')).toBe('14:32')
  })
  test('the full time names its offset', () => {
    expect(formatInstant(at, 'full', 'America/Denver')).toMatch(/^Thursday 5 March 2026.*14:32:05 GMT-07:00$/)
  })
  test('midnight is 00:00', () => {
    expect(formatInstant('2026-03-05T00:00:00Z', 'clock', 'UTC')).toBe('00:00')
  })
  test('a calendar day stays that day everywhere', () => {
    expect(formatDay('2026-09-01')).toBe('Tue 1 Sep 2026')
    expect(dayOf('2026-03-05T02:00:00Z', 'America/Denver')).toBe('2026-03-04')
  })
})

describe('a time of day typed at the bench', () => {
  test('is read in the zone of the laboratory', () => {
    expect(instantAt('2026-03-05', '14:32', 'America/Denver')).toBe('2026-03-05T21:32:00.000Z')
    expect(instantAt('2026-07-05', '14:32', 'America/Denver')).toBe('2026-07-05T20:32:00.000Z')
  })
  test('that comes twice when clocks go back is the earlier one', () => {
    expect(instantAt('2026-11-01', '01:30', 'America/Denver')).toBe('2026-11-01T07:30:00.000Z')
  })
})

test.each([
  [250_000, '04:10'],
  [7_500_000, '2 h 05 min'],
  [5 * 86_400_000 + 3 * 3_600_000 + 5, '5 d 3 h'],
])('a span of %i ms reads %s', (milliseconds, text) => {
  expect(formatSpan(milliseconds)).toBe(text)
})
