import { afterEach, expect, test, vi } from 'vitest'
import { keptAtOf, keptSince, movedOn, noteAnswer, onKept } from './kept-answer.ts'

afterEach(() => noteAnswer({ keptAt: undefined, status: 200 }))

test('the clock of a kept answer goes on by what passed on the device', () => {
  const keptAt = Date.parse('2026-03-04T08:00:00Z')
  const answer = { now: '2026-03-04T08:00:03.000Z', tasks: [1] }
  expect(movedOn(answer, keptAt, keptAt + 40 * 60_000)).toEqual({ now: '2026-03-04T08:40:03.000Z', tasks: [1] })
})

test('an answer that tells no time stays as it was kept', () => {
  for (const answer of [null, 'now', [1], { now: 5 }, { now: 'soon' }]) expect(movedOn(answer, 0, 1)).toBe(answer)
})

test('only an answer out of the device says when it was kept', () => {
  expect(keptAtOf(new Headers())).toBeUndefined()
  expect(keptAtOf(new Headers({ 'x-kept-at': '1700000000000' }))).toBe(1_700_000_000_000)
})

test('a device clock that was set back moves nothing back', () => {
  expect(movedOn({ now: '2026-03-04T08:00:00.000Z' }, 5_000, 1_000)).toEqual({ now: '2026-03-04T08:00:00.000Z' })
})

test('the oldest kept answer tells since when, until the server itself answers; what stands between does not', () => {
  const heard = vi.fn()
  const stop = onKept(heard)
  noteAnswer({ keptAt: 2_000, status: 200 })
  noteAnswer({ keptAt: 1_000, status: 200 })
  noteAnswer({ keptAt: 3_000, status: 200 })
  noteAnswer({ keptAt: undefined, status: 502 })
  expect(keptSince()).toBe(1_000)
  expect(heard).toHaveBeenCalledTimes(2)
  noteAnswer({ keptAt: undefined, status: 404 })
  expect(keptSince()).toBeUndefined()
  stop()
  noteAnswer({ keptAt: 4_000, status: 200 })
  expect(heard).toHaveBeenCalledTimes(3)
})
