import { describe, expect, test } from 'vitest'
import { keepSeen, meaningOf, nextExpected, nextInOrder, rowOfCode, type RackRow } from './rack-order.ts'

const row = (testId: string, code: string, label: string): RackRow => ({
  testId,
  code,
  label,
  earlier: [],
  reading: null,
  opensAt: null,
  closesAt: null,
})
const rows = [row('a', '7KD2', '10-1'), row('b', '7KE4', '10-2'), row('c', '9MPX', '12-1')]

describe('weighing a rack in any order', () => {
  test('a code is found as painted, in small letters or with a space from the scanner, and by its place in the series', () => {
    for (const typed of ['7KE4', '7ke4', ' 7KE4\n', '7K E4', '10-2']) expect(rowOfCode(rows, typed)?.testId).toBe('b')
    expect(rowOfCode(rows, '7KE5')).toBeUndefined()
    expect(rowOfCode(rows, '812.4')).toBeUndefined()
  })
  test('the next one expected follows the last one weighed, and starts over at the end', () => {
    const done = new Set(['b'])
    expect(nextExpected(rows, ({ testId }) => done.has(testId), undefined)?.testId).toBe('a')
    expect(nextExpected(rows, ({ testId }) => done.has(testId), 'b')?.testId).toBe('c')
    expect(nextExpected(rows, ({ testId }) => ['b', 'c'].includes(testId), 'c')?.testId).toBe('a')
    expect(nextExpected(rows, () => true, 'c')).toBeUndefined()
  })
  test('a specimen that has its weight stays in the table, and one that came later stands at its end', () => {
    const later = keepSeen(rows, [row('c', '9MPX', '12-1'), row('d', '4TRW', '13-1')])
    expect(later.map(({ testId }) => testId)).toEqual(['a', 'b', 'c', 'd'])
  })
})

test('a scanner’s code and a balance’s weight are told apart, and what is both is said to be', () => {
  const rack = [
    { code: '7KD2', label: '12-1' },
    { code: '7394', label: '12-2' },
  ]
  const meaning = (typed: string) => meaningOf(rack, typed, 'g')
  expect(['7kd2', '12-1', ' 7KD2 '].map(meaning)).toEqual(['code', 'code', 'code'])
  expect(['ST,GS,+  0812.4 g', '812.4', '-0.2 g', '7394.0', '7394 g'].map(meaning)).toEqual(Array(5).fill('weight'))
  expect(meaning('7394')).toBe('both')
  expect(['9XY4', 'OL', '812.4 mm'].map(meaning)).toEqual(['neither', 'neither', 'neither'])
})

test('twenty discs in the order of the list come one after the other, what was scanned between left out', () => {
  const rack = Array.from({ length: 20 }, (_, index) => ({ testId: `t${index + 1}` }))
  // Known as done only later: the answer of the one just stored is still on its way.
  const known = new Set(['t7'])
  const weighed: string[] = []
  let onBalance: string | undefined = 't1'
  while (onBalance !== undefined && weighed.length < 30) {
    weighed.push(onBalance)
    const next: { readonly testId: string } | undefined = nextInOrder(
      rack,
      ({ testId }) => known.has(testId),
      onBalance,
    )
    known.add(onBalance)
    onBalance = next?.testId
  }
  expect(weighed).toEqual(rack.map(({ testId }) => testId).filter((testId) => testId !== 't7'))
})
