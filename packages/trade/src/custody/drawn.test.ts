import fc from 'fast-check'
import { expect, test } from 'vitest'
import { accountOf, massLeft, overdrawnBy, type Move } from './drawn.ts'
import { sharesOf } from './split.ts'

const by = { kind: 'person', id: 'p', name: 'P' } as const
const drawn = (massG: string, since = true): Move => ({ kind: 'drawn', from: 'unnamed', massG, since })
const named = (from: 'item' | 'piece', massG: string, since = true): Move => ({ kind: 'drawn', from, massG, since })
const piece = (massG: string): Move => ({ kind: 'piece', massG })
const lost = (massG: string): Move => ({ kind: 'lost', massG })
const away = (massG: string): Move => ({ kind: 'away', massG, disposed: false })
const disposed = (massG: string): Move => ({ kind: 'away', massG, disposed: true })
const drawnSince = (moves: readonly Move[]) => accountOf(moves).sinceG
const gone = (moves: readonly Move[]) => accountOf(moves).goneG

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
  expect(accountOf([drawn('4000', false), drawn('96.4')])).toMatchObject({ drawnG: '4096.4', sinceG: '96.4' })
})
test('where no bag is named, bags that were set apart are used up first', () => {
  expect(drawnSince([piece('800'), piece('800'), drawn('800'), drawn('800')])).toBe('0')
  expect(drawnSince([drawn('100', false), piece('800'), drawn('1000')])).toBe('200')
})
test('a weighing that names its bag, or the item itself, is taken off that and nothing else', () => {
  expect(drawnSince([piece('800'), named('piece', '800')])).toBe('0')
  expect(drawnSince([piece('800'), named('item', '300')])).toBe('300')
  expect(drawnSince([piece('800'), piece('800'), named('piece', '500'), drawn('1200')])).toBe('100')
})
test('a bag that batches used and that is disposed of then went once', () => {
  expect(gone([piece('800'), drawn('800'), disposed('800')])).toBe('0')
  expect(gone([piece('800'), drawn('300'), disposed('800')])).toBe('500')
  expect(gone([piece('800'), piece('800'), drawn('800'), disposed('800'), disposed('800')])).toBe('800')
})
test('what a disposal threw away of a bag is used by no batch that comes later', () => {
  expect(accountOf([piece('800'), disposed('800'), drawn('800')])).toEqual({
    drawnG: '800',
    sinceG: '800',
    goneG: '800',
  })
  expect(drawnSince([piece('800'), lost('100'), drawn('800')])).toBe('100')
})
test('a bag that is sent away goes with the mass that it has by the record', () => {
  expect(gone([piece('800'), drawn('800'), away('800')])).toBe('800')
  expect(accountOf([piece('800'), away('800'), drawn('300')])).toMatchObject({ drawnG: '300', goneG: '800' })
})
test('a weighing that named no bag and is corrected gives back to the bags that it was taken to be of', () => {
  const thenNamed = [piece('800'), drawn('800'), drawn('-800'), named('piece', '800'), named('item', '1000')]
  expect(accountOf(thenNamed)).toEqual({ drawnG: '1000', sinceG: '1000', goneG: '0' })
  const mistyped = [piece('8000'), drawn('8000'), drawn('-7200'), named('item', '1000')]
  expect(accountOf(mistyped)).toMatchObject({ drawnG: '1000', sinceG: '1000' })
  expect(drawnSince([piece('800'), drawn('8000'), drawn('-7200'), drawn('100')])).toBe('100')
  expect(gone([piece('800'), drawn('800'), drawn('-300'), disposed('800')])).toBe('300')
})
test('what is given back after the bag was disposed of was thrown away with it', () => {
  const moves = [piece('800'), drawn('800'), disposed('800'), drawn('-300'), named('item', '1000')]
  expect(accountOf(moves)).toEqual({ drawnG: '1000', sinceG: '1000', goneG: '300' })
})

const grams = fc.integer({ min: 1, max: 9000 })
const anyMove: fc.Arbitrary<Move> = grams.chain((mass) =>
  fc.constantFrom(piece(`${mass}`), drawn(`${mass}`), named('item', `${mass}`), disposed(`${mass}`), away(`${mass}`)),
)
/** Nothing that was weighed without a bag before: what is given back can be of this one weighing only. */
const anyNamed = fc.array(
  anyMove.filter((move) => move.kind !== 'drawn' || move.from !== 'unnamed'),
  { maxLength: 8 },
)
test('a weighing without a bag that is taken back whole leaves the account as if it had not been', () => {
  const account = fc.property(anyNamed, grams, fc.array(anyMove, { maxLength: 8 }), (before, mass, after) => {
    expect(accountOf([...before, drawn(`${mass}`), drawn(`-${mass}`), ...after])).toEqual(
      accountOf([...before, ...after]),
    )
  })
  fc.assert(account)
})
test('one that is corrected at once, up or down, counts as if it had been typed so', () => {
  const account = fc.property(
    anyNamed,
    grams,
    grams,
    fc.array(anyMove, { maxLength: 8 }),
    (before, typed, right, after) => {
      const corrected = [...before, drawn(`${typed}`), drawn(`${right - typed}`), ...after]
      expect(accountOf(corrected)).toEqual(accountOf([...before, drawn(`${right}`), ...after]))
    },
  )
  fc.assert(account)
})
test('no correction that leaves a mass makes the item draw less than nothing, whatever was disposed of meanwhile', () => {
  const account = fc.property(
    fc.array(anyMove, { maxLength: 6 }),
    grams,
    fc.array(anyMove, { maxLength: 6 }),
    grams,
    (before, mass, between, later) => {
      const moves = [...before, drawn(`${mass}`), ...between, drawn(`-${mass}`)]
      const more = accountOf([...moves, named('item', `${later}`)])
      expect(Number(more.drawnG)).toBe(Number(accountOf(moves).drawnG) + later)
      expect(Number(more.sinceG)).toBe(Number(accountOf(moves).sinceG) + later)
      expect(Number(accountOf(moves).goneG)).toBeGreaterThanOrEqual(0)
    },
  )
  fc.assert(account)
})
test('of an item never weighed nobody knows, and there is never less than nothing', () => {
  expect([massLeft(null, '5'), massLeft('10', '12.5'), massLeft('10', '2.5')]).toEqual([null, '0', '7.5'])
  expect([overdrawnBy(null, '5'), overdrawnBy('10', '12.5'), overdrawnBy('10', '10')]).toEqual([null, '2.5', null])
})
