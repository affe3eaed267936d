import { expect, test } from 'vitest'
import { idleLeft, readLockMinutes, writeLockMinutes } from './lock-setting.ts'

const storage = () => {
  const kept = new Map<string, string>()
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  }
}

test('a device locks after ten minutes unless it is set otherwise; what is no setting is none', () => {
  const own = storage()
  expect(readLockMinutes(own)).toBe(10)
  writeLockMinutes(own, 2)
  expect(readLockMinutes(own)).toBe(2)
  writeLockMinutes(own, 100_000)
  expect(readLockMinutes(own)).toBe(10)
})
test('the time until the lock counts from the last touch', () => {
  expect(idleLeft({ actedAt: 0, now: 60_000, minutes: 10 })).toBe(9 * 60_000)
  expect(idleLeft({ actedAt: 0, now: 11 * 60_000, minutes: 10 })).toBeLessThan(0)
})
