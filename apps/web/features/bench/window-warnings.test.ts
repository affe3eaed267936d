import { expect, test } from 'vitest'
import { dueWarnings, isInLastMinutes, nextWarningAt, type ClosingWindow } from './window-warnings.ts'

const closes = Date.parse('2026-03-05T12:00:00Z')
const minutes = { first: 5, last: 1 }
const bath: ClosingWindow = {
  key: 'bath',
  name: 'Take out: 12-1',
  opensAt: '2026-03-05T11:00:00Z',
  closesAt: '2026-03-05T12:00:00Z',
}
const nothing: ReadonlySet<string> = new Set()
/** What is due so many seconds before the window closes. */
const dueAt = (secondsBefore: number, given = nothing, windows = [bath]) =>
  dueWarnings(windows, closes - secondsBefore * 1000, minutes, given)

test.each([
  [301, undefined],
  [300, 5],
  [299, 5],
  [61, 2],
  [60, 1],
  [1, 1],
  [0, undefined],
  [-600, undefined],
])('%i s before the window closes, with nothing given yet', (seconds, left) => {
  expect(dueAt(seconds)[0]?.minutes).toBe(left)
})

test('each of the two is given once', () => {
  const first = dueAt(300)
  const given = new Set(first.flatMap(({ settles }) => settles))
  expect(dueAt(299, given)).toEqual([])
  const last = dueAt(60, given)
  expect(last).toHaveLength(1)
  const both = new Set([...given, ...last.flatMap(({ settles }) => settles)])
  expect(dueAt(59, both)).toEqual([])
})

test('a tablet that slept past the first gives the last alone, and never the first after it', () => {
  const due = dueAt(30)
  expect(due.map(({ settles }) => settles)).toEqual([['bath first', 'bath last']])
  expect(dueAt(29, new Set(due.flatMap(({ settles }) => settles)))).toEqual([])
})

test('the same window on another minute setting is not warned of again', () => {
  const given = new Set(dueAt(300).flatMap(({ settles }) => settles))
  expect(dueWarnings([bath], closes - 200_000, { first: 15, last: 1 }, given)).toEqual([])
})

test('another closing time is another window', () => {
  const given = new Set(dueAt(300).flatMap(({ settles }) => settles))
  expect(dueAt(300, given, [{ ...bath, key: 'bath, later' }])).toHaveLength(1)
})

test('a window that opens three minutes before it closes warns when it opens, not before', () => {
  const short = [{ ...bath, opensAt: '2026-03-05T11:57:00Z' }]
  expect(dueAt(181, nothing, short)).toEqual([])
  expect(dueAt(180, nothing, short)[0]?.minutes).toBe(3)
})

test('a window without an end, and one without a beginning', () => {
  expect(dueAt(60, nothing, [{ ...bath, closesAt: null }])).toEqual([])
  expect(dueAt(300, nothing, [{ ...bath, opensAt: null }])).toHaveLength(1)
})

test('the next moment is the nearest that is still to come', () => {
  const later = { ...bath, key: 'later', closesAt: '2026-03-05T12:02:00Z' }
  const next = (secondsBefore: number) => nextWarningAt([later, bath], closes - secondsBefore * 1000, minutes)
  expect(next(600)).toBe(closes - 300_000)
  expect(next(300)).toBe(closes - 180_000)
  expect(next(180)).toBe(closes - 60_000)
  expect(next(-60)).toBeUndefined()
})

test('the last minutes are those before a window opens and before it closes', () => {
  const at = (iso: string) => isInLastMinutes([bath], Date.parse(iso), 5)
  expect(at('2026-03-05T10:54:59Z')).toBe(false)
  expect(at('2026-03-05T10:55:00Z')).toBe(true)
  expect(at('2026-03-05T11:30:00Z')).toBe(false)
  expect(at('2026-03-05T11:59:00Z')).toBe(true)
  expect(at('2026-03-05T12:00:00Z')).toBe(false)
})
