import { afterEach, expect, test, vi } from 'vitest'
import { claimWarnings, givenWarnings, noteGiven } from './given-warnings.ts'

afterEach(() => vi.unstubAllGlobals())

/** A device's own store, which outlives its pages. */
function store(kept: string | null = null) {
  const texts = new Map(kept === null ? [] : [['curebook-warned', kept]])
  return {
    getItem: (key: string) => texts.get(key) ?? null,
    setItem: (key: string, next: string) => void texts.set(key, next),
  }
}
const noon = Date.parse('2026-03-05T12:00:00Z')
const bath = { settles: ['bath first', 'bath last'], closesAt: '2026-03-05T12:00:00Z' }

test('what was given is known after a reload', () => {
  const device = store()
  noteGiven(device, [bath], noon - 60_000)
  noteGiven(device, [{ settles: ['oven first'], closesAt: '2026-03-05T13:00:00Z' }], noon)
  expect([...givenWarnings(device)].toSorted()).toEqual(['bath first', 'bath last', 'oven first'])
})

test('a window that closed more than a day ago is forgotten, one of today is not', () => {
  const device = store()
  noteGiven(device, [bath], noon)
  noteGiven(device, [], noon + 86_400_000 - 1)
  expect(givenWarnings(device).size).toBe(2)
  noteGiven(device, [], noon + 86_400_000)
  expect(givenWarnings(device).size).toBe(0)
})

test.each(['{', 'null', '[1]', '"bath first"', '{"bath first":"noon"}'])('kept as %s it counts as nothing', (kept) => {
  const device = store(kept)
  expect(givenWarnings(device).size).toBe(0)
  noteGiven(device, [bath], noon)
  expect(givenWarnings(device).size).toBe(2)
})

/** Web Locks as far as they are used here: one after another. */
function tabLocks() {
  let last: Promise<unknown> = Promise.resolve()
  return { request: (_: string, __: object, work: () => Promise<unknown>) => (last = last.then(work)) }
}

test.each([
  ['with locks', { locks: tabLocks() }],
  ['on an address without https', {}],
])('%s, of two tabs to which a warning falls due at once, one gives it', async (_, browser) => {
  vi.stubGlobal('navigator', browser)
  const device = store()
  const due = (given: ReadonlySet<string>) => [bath].filter(({ settles }) => settles.some((id) => !given.has(id)))
  const tabs = await Promise.all([1, 2, 3].map(() => claimWarnings(device, due, noon - 60_000)))
  expect(tabs.flat()).toEqual([bath])
  expect(await claimWarnings(device, due, noon)).toEqual([])
})
