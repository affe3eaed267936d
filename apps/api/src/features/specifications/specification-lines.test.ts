import { expect, test } from 'vitest'
import { lineOf, placesInLines } from './specification-lines.ts'

const row = (id: string, supersedesId: string | null = null, isWithdrawn = false) => ({
  id,
  supersedesId,
  withdrawal: isWithdrawn ? { specificationId: id } : null,
})

test('versions are counted along their line, whatever order they come in', () => {
  const places = placesInLines([row('c', 'b'), row('other'), row('a'), row('b', 'a')])
  expect(['a', 'b', 'c', 'other'].map((id) => places.get(id))).toEqual([
    { lineId: 'a', version: 1, standing: 'superseded' },
    { lineId: 'a', version: 2, standing: 'superseded' },
    { lineId: 'a', version: 3, standing: 'current' },
    { lineId: 'other', version: 1, standing: 'current' },
  ])
})

test('a line whose newest version is withdrawn is withdrawn as a whole', () => {
  const rows = [row('b', 'a', true), row('a'), row('other')]
  expect(placesInLines(rows).get('a')?.standing).toBe('withdrawn')
  expect(placesInLines(rows).get('other')?.standing).toBe('current')
  expect(lineOf(rows, 'b').map(({ id }) => id)).toEqual(['a', 'b'])
  expect(lineOf(rows, 'nothing')).toEqual([])
})
