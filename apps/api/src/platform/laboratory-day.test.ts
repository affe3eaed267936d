import { expect, test } from 'vitest'
import { dayIn } from './laboratory-day.ts'

test('the day is the one of the zone, not of Greenwich', () => {
  const lateEvening = new Date('2026-03-05T23:30:00Z')
  expect(dayIn('Europe/London', lateEvening)).toBe('2026-03-05')
  expect(dayIn('Europe/Berlin', lateEvening)).toBe('2026-03-06')
  expect(dayIn('America/Denver', new Date('2026-03-05T06:59:00Z'))).toBe('2026-03-04')
})
