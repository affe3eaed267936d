import { expect, test } from 'vitest'
import { noticesOf } from './assignment-notices.ts'

const made = (assignmentId: string, from: string | null) => ({ assignmentId, from })

test('forty tests given at once are one notice', () => {
  const forty = Array.from({ length: 40 }, (_, index) => made(`a${index}`, null))
  expect(noticesOf(forty, { to: 'B', by: 'M' })).toEqual([
    { toId: 'B', kind: 'given', assignmentIds: forty.map(({ assignmentId }) => assignmentId) },
  ])
})

test('who had a test hears of theirs alone, who has it now of all', () => {
  const rows = [made('1', 'A'), made('2', 'C'), made('3', 'A'), made('4', null)]
  expect(noticesOf(rows, { to: 'B', by: 'M' })).toEqual([
    { toId: 'B', kind: 'given', assignmentIds: ['1', '2', '3', '4'] },
    { toId: 'A', kind: 'taken', assignmentIds: ['1', '3'] },
    { toId: 'C', kind: 'taken', assignmentIds: ['2'] },
  ])
})

test('taken back tells who had it; what had nobody tells nobody', () => {
  expect(noticesOf([made('1', 'A'), made('2', null)], { to: null, by: 'M' })).toEqual([
    { toId: 'A', kind: 'taken', assignmentIds: ['1'] },
  ])
  expect(noticesOf([made('2', null)], { to: null, by: 'M' })).toEqual([])
  expect(noticesOf([], { to: 'B', by: 'M' })).toEqual([])
})

test('nobody is told of what they did themselves', () => {
  expect(noticesOf([made('1', 'A')], { to: 'M', by: 'M' })).toEqual([
    { toId: 'A', kind: 'taken', assignmentIds: ['1'] },
  ])
  expect(noticesOf([made('1', 'M')], { to: 'B', by: 'M' })).toEqual([
    { toId: 'B', kind: 'given', assignmentIds: ['1'] },
  ])
})
