import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { watchIdle } from './idle-watch.ts'

const minute = 60_000
let kept: Map<string, string>
let locks: number

beforeEach(() => {
  vi.useFakeTimers({ now: Date.parse('2026-03-05T14:00:00Z') })
  kept = new Map()
  locks = 0
})
afterEach(() => {
  vi.useRealTimers()
})

/** A tab of this browser; a second one on the same `kept` is another tab, or the same after it was closed. */
const openTab = () => {
  const watch = watchIdle({
    storage: { getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => void kept.set(key, value) },
    membershipId: 'ada',
    now: () => Date.now(),
    onLock: () => (locks += 1),
  })
  watch.check()
  return watch
}
const isLocked = () => kept.get('curebook-locked') === 'ada'

test('a screen that nobody touches locks after its minutes, and each touch begins them anew', () => {
  const tab = openTab()
  vi.advanceTimersByTime(9 * minute)
  tab.touch()
  vi.advanceTimersByTime(9 * minute)
  expect(isLocked()).toBe(false)
  vi.advanceTimersByTime(minute)
  expect([isLocked(), locks]).toEqual([true, 1])
})
test('a tab that was closed or discarded is locked when it is opened again, and opening it is no touch', () => {
  openTab().stop()
  vi.setSystemTime(Date.now() + 11 * minute)
  openTab()
  expect([isLocked(), locks]).toEqual([true, 1])
})
test('the touch that wakes a tab whose timer slept is compared before it is noted', () => {
  const tab = openTab()
  vi.setSystemTime(Date.now() + 11 * minute)
  tab.touch()
  expect(isLocked()).toBe(true)
})
test('a touch in one tab counts in the other', () => {
  const one = openTab()
  openTab()
  vi.advanceTimersByTime(6 * minute)
  one.touch()
  vi.advanceTimersByTime(6 * minute)
  expect(isLocked()).toBe(false)
})
test('without a touch noted the time begins now: somebody has just proved who they are', () => {
  const tab = openTab()
  vi.advanceTimersByTime(10 * minute)
  expect(isLocked()).toBe(true)
  kept.clear()
  tab.check()
  expect(isLocked()).toBe(false)
  vi.advanceTimersByTime(10 * minute)
  expect([isLocked(), locks]).toEqual([true, 2])
})
