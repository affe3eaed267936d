import { describe, expect, test } from 'vitest'
import { keepSeen, nextExpected, rowOfCode, type RackRow } from './rack-order.ts'

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
