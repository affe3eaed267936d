import { expect, test } from 'vitest'
import { emulsionAgeDays, retestResidueFromDay } from './emulsion-age.ts'

test('an emulsion ages by days of the calendar, over the end of a month and a change of clocks', () => {
  expect(emulsionAgeDays('2026-02-27', '2026-03-02')).toBe(3)
  expect(emulsionAgeDays('2026-03-02', '2026-03-02')).toBe(0)
  expect(emulsionAgeDays('2026-03-20', '2026-04-03')).toBe(retestResidueFromDay.value)
})
