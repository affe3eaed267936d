import fc from 'fast-check'
import { expect, test } from 'vitest'
import { drawnSince, massLeft, type Move } from './drawn.ts'
import { sharesOf } from './split.ts'

const by = { kind: 'person', id: 'p', name: 'P' } as const
const drawn = (massG: string, since = true): Move => ({ kind: 'drawn', massG, since })
const piece = (massG: string): Move => ({ kind: 'piece', massG, since: false })

test('of 25 kg batches drew 4 kg: with 1 kg split off, the 20 kg weighed are the rest, and nothing is lost', () => {
  const held = massLeft('25000', drawnSince([drawn('1500'), drawn('2500')]))
  const split = { kind: 'split', by, pieces: [{ id: 'a', massG: '1000' }], lossG: '0', weighedG: null } as const
  expect(sharesOf({ ...split, leftG: '20000' }, held)).toEqual({ ok: true, leftG: '20000' })
  expect(sharesOf({ ...split, leftG: '24000' }, held)).toMatchObject({ code: 'mass-not-kept' })
})
test('what the last act knows of is not drawn again; a correction counts by its difference', () => {
  expect(drawnSince([drawn('4000', false)])).toBe('0')
  expect(drawnSince([drawn('96.4'), drawn('-0.4')])).toBe('96')
  expect(drawnSince([drawn('96.4', false), drawn('-0.4')])).toBe('0')
})
test('bags that were set apart are used up first', () => {
  expect(drawnSince([piece('800'), piece('800'), drawn('800'), drawn('800')])).toBe('0')
  expect(drawnSince([drawn('100', false), piece('800'), drawn('1000')])).toBe('200')
})
test('of an item never weighed nobody knows, and there is never less than nothing', () => {
  expect([massLeft(null, '5'), massLeft('10', '12.5'), massLeft('10', '2.5')]).toEqual([null, '0', '7.5'])
})
test('between nothing and all that was drawn; without pieces just what was drawn since', () => {
  const grams = fc.integer({ min: 0, max: 10_000 })
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.boolean(), grams, fc.boolean()), { maxLength: 20 }), (rows) => {
      const moves = rows.map(([isPiece, mass, since]): Move => ({
        kind: isPiece ? 'piece' : 'drawn',
        massG: String(mass),
        since,
      }))
      const draws = moves.filter(({ kind, since }) => kind === 'drawn' && since)
      const all = draws.reduce((sum, { massG }) => sum + Number(massG), 0)
      const apart = moves.reduce((sum, { kind, massG }) => sum + (kind === 'piece' ? Number(massG) : 0), 0)
      const found = Number(drawnSince(moves))
      expect(found).toBeLessThanOrEqual(all)
      expect(found).toBeGreaterThanOrEqual(Math.max(0, all - apart))
    }),
  )
})
