import { expect, test } from 'vitest'
import { announcementsBetween } from './window-announcement.ts'

const closes = Date.parse('2026-03-05T10:00:00Z')
const windows = [
  { name: '12-1', closesAt: '2026-03-05T10:00:00Z' },
  { name: 'open', closesAt: null },
]
const said = (fromSeconds: number, toSeconds: number) =>
  announcementsBetween(closes + fromSeconds * 1000, closes + toSeconds * 1000, windows).map(({ minutes }) => minutes)

test('a closing window is told of at five minutes, at one, and when it closes; not at each second', () => {
  expect(said(-301, -300)).toEqual([5])
  expect(said(-299, -298)).toEqual([])
  expect(said(-61, -60)).toEqual([1])
  expect(said(-1, 0)).toEqual([0])
  expect(said(1, 2)).toEqual([])
})
test('a tablet that slept says only the latest of what it missed', () => {
  expect(said(-400, 10)).toEqual([0])
})
test('where the device warns at other minutes, those are told too, each once', () => {
  const told = (secondsBefore: number) =>
    announcementsBetween(closes - secondsBefore * 1000 - 1000, closes - secondsBefore * 1000, windows, [10, 1]).map(
      ({ minutes }) => minutes,
    )
  expect([600, 300, 60, 0].map(told)).toEqual([[10], [5], [1], [0]])
})
