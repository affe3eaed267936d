import { expect, test } from 'vitest'
import { isStuck, urgencyOf } from './urgency.ts'

const opens = '2026-03-05T11:20:00.000Z'
const closes = '2026-03-05T12:20:00.000Z'

test.each([
  ['2026-03-05T11:19:59.999Z', 'opens-later'],
  ['2026-03-05T11:20:00.000Z', 'open'],
  ['2026-03-05T11:50:00.000Z', 'closing'],
  ['2026-03-05T12:20:00.000Z', 'closing'],
  ['2026-03-05T12:20:00.001Z', 'late'],
])('an act at %s is %s', (now, expected) => {
  expect(urgencyOf(opens, closes, now)).toBe(expected)
})

test('an act that nothing bounds may be done at any time', () => {
  expect(urgencyOf(null, null, opens)).toBe('any-time')
})

test('an act bounded on one side only is open there', () => {
  expect(urgencyOf(opens, null, closes)).toBe('open')
  expect(urgencyOf(null, closes, '2026-03-05T08:00:00.000Z')).toBe('open')
})

test.each([
  [{ urgency: 'late', started: true, held: null }, true],
  [{ urgency: 'late', started: false, held: null }, false],
  [{ urgency: 'open', started: true, held: null }, false],
  [{ urgency: 'any-time', started: false, held: 'decision' }, true],
  [{ urgency: 'opens-later', started: true, held: 'spare' }, true],
] as const)('%o: stands still: %s', (row, expected) => {
  expect(isStuck(row)).toBe(expected)
})
