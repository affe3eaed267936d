import { expect, test } from 'vitest'
import { dayAfter, isClosedDay, weekdayOf } from './closed-days.ts'

test('a Sunday and a holiday are closed', () => {
  const closed = { weekdays: [6, 7], dates: ['2026-04-03'] }
  expect(isClosedDay('2026-03-08', closed)).toBe(true)
  expect(isClosedDay('2026-04-03', closed)).toBe(true)
  expect(isClosedDay('2026-03-09', closed)).toBe(false)
})

test('days go over months and the change of clocks', () => {
  expect(dayAfter('2026-03-28', 2)).toBe('2026-03-30')
  expect(dayAfter('2026-02-28', 1)).toBe('2026-03-01')
  expect([weekdayOf('2026-03-02'), weekdayOf('2026-03-08')]).toEqual([1, 7])
})
