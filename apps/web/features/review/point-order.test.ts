import { expect, test } from 'vitest'
import { codesOf, inOrder, openPoints, pointGroups } from './point-order.ts'

const word = { word: 'seen', by: { membershipId: 'm', name: 'N', initials: 'N' }, at: '2026-03-06T09:00:00Z' }
const points = [
  { key: 'a', blocking: false, acknowledged: word },
  { key: 'b', blocking: false, acknowledged: null },
  { key: 'c', blocking: true, acknowledged: null },
  { key: 'd', blocking: false, acknowledged: null },
]

test('counts what blocks, what waits for a word, and what is settled', () => {
  expect(openPoints(points)).toEqual({ blocking: 1, waiting: 2, settled: 1 })
})

test('what blocks stands first, what is settled last, the rest as given', () => {
  expect(inOrder(points).map(({ key }) => key)).toEqual(['c', 'b', 'd', 'a'])
})

test('unfinished specimens stand together, and so does what was not tested and waits; the rest one by one', () => {
  const waiting = { blocking: false, acknowledged: null }
  const listed = [
    { key: 'void', kind: 'void' as const, ...waiting },
    { key: 'deviation', kind: 'deviation' as const, ...waiting, blocking: true },
    { key: 'u1', kind: 'unfinished' as const, ...waiting, blocking: true },
    { key: 'u2', kind: 'unfinished' as const, ...waiting, blocking: true },
    { key: 'said', kind: 'not-tested' as const, ...waiting, acknowledged: word },
    { key: 'n1', kind: 'not-tested' as const, ...waiting },
    { key: 'n2', kind: 'not-tested' as const, ...waiting },
  ]
  const groups = pointGroups(listed)
  const keysOf = (name: keyof typeof groups) => groups[name].map(({ key }) => key)
  expect(keysOf('unfinished')).toEqual(['u1', 'u2'])
  expect(keysOf('open')).toEqual(['deviation', 'void'])
  expect(keysOf('untested')).toEqual(['n1', 'n2'])
  expect(keysOf('settled')).toEqual(['said'])
})

test('codes are read from any list, once each', () => {
  expect(codesOf(' 7kd2, 7KE4\n7kd2 ;')).toEqual(['7KD2', '7KE4'])
  expect(codesOf('  ')).toEqual([])
})
