import { describe, expect, test } from 'vitest'
import { choose, extend, nextSort, readSort, sortRows } from './table-order.ts'

describe('the order of a table', () => {
  test('a head goes up, down, then back to the order of the list', () => {
    expect(nextSort('', 'code')).toBe('code')
    expect(nextSort('code', 'code')).toBe('-code')
    expect(nextSort('-code', 'code')).toBe('')
    expect(readSort('-code')).toEqual({ key: 'code', direction: 'descending' })
    expect(readSort('')).toBeUndefined()
  })
  test('codes sort by their numbers, and what is missing stands last both ways', () => {
    const rows = ['10-2', '', '9-1', '10-10']
    expect(sortRows(rows, (row) => row, 'ascending')).toEqual(['9-1', '10-2', '10-10', ''])
    expect(sortRows(rows, (row) => row, 'descending')).toEqual(['10-10', '10-2', '9-1', ''])
  })
})

describe('choosing rows', () => {
  const ids = ['a', 'b', 'c', 'd']
  test('a press chooses one, a second press leaves it', () => {
    expect([...choose(ids, new Set(), 'b', undefined, false)]).toEqual(['b'])
    expect([...choose(ids, new Set(['b']), 'b', 'b', false)]).toEqual([])
  })
  test('Shift chooses all between, in either direction', () => {
    expect([...choose(ids, new Set(['d']), 'b', 'd', true)].sort()).toEqual(['b', 'c', 'd'])
  })
  test('what is chosen on another page stays chosen', () => {
    expect(choose(ids, new Set(['z']), 'a', undefined, false).has('z')).toBe(true)
  })
  test('Shift with an arrow goes on from where it began, and back again', () => {
    const anchor = { id: 'b', base: new Set(['z']) }
    expect([...extend(ids, anchor, 'd')]).toEqual(['z', 'b', 'c', 'd'])
    expect([...extend(ids, anchor, 'c')]).toEqual(['z', 'b', 'c'])
    expect([...extend(ids, anchor, 'a')]).toEqual(['z', 'a', 'b'])
    expect([...extend(ids, anchor, 'gone')]).toEqual(['z'])
  })
})
