import { expect, test } from 'vitest'
import { codesOf, inOrder, openPoints } from './point-order.ts'

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

test('codes are read from any list, once each', () => {
  expect(codesOf(' 7kd2, 7KE4\n7kd2 ;')).toEqual(['7KD2', '7KE4'])
  expect(codesOf('  ')).toEqual([])
})
