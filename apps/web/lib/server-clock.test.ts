import { expect, test } from 'vitest'
import { dayOf } from './laboratory-time.ts'
import { noteServerTime, serverNow } from './server-clock.ts'

test('the day is the server’s, however wrong the clock of the device is', () => {
  const device = Date.parse('2026-03-07T12:00:00Z')
  noteServerTime('Thu, 05 Mar 2026 02:00:00 GMT', device)
  expect(serverNow(device + 1_000)).toBe('2026-03-05T02:00:01.000Z')
  expect(dayOf(serverNow(device), 'America/Denver')).toBe('2026-03-04')
})

test('an answer that tells no time changes nothing', () => {
  const device = Date.parse('2026-03-07T12:00:00Z')
  noteServerTime('Thu, 05 Mar 2026 02:00:00 GMT', device)
  noteServerTime(null, device)
  noteServerTime('soon', device)
  expect(serverNow(device)).toBe('2026-03-05T02:00:00.000Z')
})
