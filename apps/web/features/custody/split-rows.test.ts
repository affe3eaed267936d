import { expect, test } from 'vitest'
import { errorsAtRows, mostPieces, piecesOf, previewOf, type SplitRow } from './split-rows.ts'

const row = (count: string, mass: string, kind: SplitRow['kind'] = 'bag'): SplitRow => ({
  key: mass,
  count,
  kind,
  mass,
})
const bags = [row('34', '800'), row('18', '300')]

test('a row of many is that many pieces, each with an id that stays', () => {
  const ids = Array.from({ length: 60 }, (_, n) => `id ${n}`)
  const pieces = piecesOf(bags, (index) => ids[index]!)
  expect(pieces).toHaveLength(52)
  expect(pieces[34]).toEqual({ id: 'id 34', kind: 'bag', mass: '300' })
  expect(piecesOf(bags, (index) => ids[index]!)).toEqual(pieces)
})

test('a count that is no number makes no piece, and a slip of a digit makes not thousands', () => {
  expect(piecesOf([row('', '800'), row('two', '800')], String)).toEqual([])
  expect(piecesOf([row('999', '800')], String).length).toBe(mostPieces + 1)
})

test('what was refused of a piece stands at its row', () => {
  expect(errorsAtRows(bags, { 'pieces.40.mass': 'Not a mass.', loss: 'Less.' })).toEqual({
    'rows.1.mass': 'Not a mass.',
    loss: 'Less.',
  })
  expect(errorsAtRows(bags, { 'pieces.52.mass': 'Not a mass.' })).toHaveProperty(['pieces.52.mass'])
})

test('what would be left is told before anything is stored, or what speaks against it', () => {
  const split = { rows: bags, loss: '', left: '', weighed: '', massG: '74200' }
  expect(previewOf(split)).toEqual({ leftG: '41600' })
  expect(previewOf({ ...split, loss: '100', left: '41,5 kg' })).toEqual({ leftG: '41500' })
  expect(previewOf({ ...split, left: '41 kg' })).toEqual({ sentence: expect.stringContaining('600 g are missing') })
  expect(previewOf({ ...split, massG: null })).toBeUndefined()
  expect(previewOf({ ...split, massG: null, weighed: '33 kg' })).toEqual({ leftG: '400' })
  expect(previewOf({ ...split, rows: [row('2', '')] })).toBeUndefined()
})
