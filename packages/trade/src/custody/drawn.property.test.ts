import fc from 'fast-check'
import { expect, test } from 'vitest'
import { accountOf, massLeft, overdrawnBy, type Move } from './drawn.ts'

const grams = fc.integer({ min: 0, max: 10_000 }).map(String)
const sum = (moves: readonly Move[]) => moves.reduce((total, { massG }) => total + Number(massG), 0)
const unnamed = fc.record({
  kind: fc.constant('drawn' as const),
  from: fc.constantFrom('item' as const, 'unnamed' as const),
  massG: grams,
  since: fc.boolean(),
})
const anyMove: fc.Arbitrary<Move> = fc.oneof(
  unnamed,
  fc.record({
    kind: fc.constant('drawn' as const),
    from: fc.constant('piece' as const),
    massG: grams,
    since: fc.boolean(),
  }),
  fc.record({ kind: fc.constantFrom('piece' as const, 'lost' as const), massG: grams }),
  fc.record({ kind: fc.constant('away' as const), massG: grams, disposed: fc.boolean() }),
)

test('between nothing and all that was drawn; what names the item is all of it, what names a piece is none', () => {
  fc.assert(
    fc.property(fc.array(anyMove, { maxLength: 25 }), (moves) => {
      const draws = moves.filter((move) => move.kind === 'drawn' && move.from !== 'piece')
      const ofItem = draws.filter((move) => move.kind === 'drawn' && move.from === 'item')
      const apart = sum(moves.filter(({ kind }) => kind === 'piece'))
      const { drawnG, sinceG, goneG } = accountOf(moves)
      expect(Number(drawnG)).toBeLessThanOrEqual(sum(draws))
      expect(Number(drawnG)).toBeGreaterThanOrEqual(Math.max(sum(ofItem), sum(draws) - apart))
      expect(Number(sinceG)).toBeLessThanOrEqual(Number(drawnG))
      expect(Number(goneG)).toBeLessThanOrEqual(sum(moves.filter(({ kind }) => kind === 'away')))
      expect(Number(goneG)).toBeGreaterThanOrEqual(0)
    }),
  )
})

/** One thing done to a sample and its bags: what really happens to the mass is known, and what is put down of it. */
const deed = fc.record({
  what: fc.constantFrom('set apart', 'draw of the bag', 'draw of the sample', 'dispose', 'send'),
  of: fc.nat(),
  percent: fc.integer({ min: 1, max: 100 }),
})

test('where every weighing names its bag, what stands, was drawn and went is what came, bag by bag', () => {
  fc.assert(
    fc.property(fc.integer({ min: 100, max: 50_000 }), fc.array(deed, { maxLength: 30 }), (came, deeds) => {
      let sample = came
      let drawnAll = 0
      const bags: { real: number; moves: Move[]; made: number; here: boolean }[] = []
      const moves: Move[] = []
      for (const { what, of, percent } of deeds) {
        const bag = bags[of % Math.max(bags.length, 1)]
        const part = (mass: number) => Math.floor((mass * percent) / 100)
        if (what === 'set apart') {
          const made = part(sample)
          sample -= made
          bags.push({ real: made, moves: [], made, here: true })
          moves.push({ kind: 'piece', massG: String(made) })
        } else if (what === 'draw of the sample') {
          const mass = part(sample)
          sample -= mass
          drawnAll += mass
          moves.push({ kind: 'drawn', from: 'item', massG: String(mass), since: true })
        } else if (bag?.here && what === 'draw of the bag') {
          const mass = part(bag.real)
          bag.real -= mass
          drawnAll += mass
          bag.moves.push({ kind: 'drawn', from: 'item', massG: String(mass), since: true })
          moves.push({ kind: 'drawn', from: 'piece', massG: String(mass), since: true })
        } else if (bag?.here && (what === 'dispose' || what === 'send')) {
          bag.here = false
          moves.push({
            kind: 'away',
            massG: massLeft(String(bag.made), accountOf(bag.moves).sinceG)!,
            disposed: what === 'dispose',
          })
        }
      }
      for (const bag of bags) {
        expect(massLeft(String(bag.made), accountOf(bag.moves).sinceG)).toBe(String(bag.real))
        expect(overdrawnBy(String(bag.made), accountOf(bag.moves).sinceG)).toBeNull()
      }
      const standing = sample + bags.filter(({ here }) => here).reduce((total, { real }) => total + real, 0)
      expect(came - drawnAll - Number(accountOf(moves).goneG)).toBe(standing)
    }),
    { numRuns: 300 },
  )
})

test('without a bag named, nothing of what came is taken off twice or made', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 2000 }), { minLength: 1, maxLength: 12 }),
      fc.nat(),
      (bags, seed) => {
        const moves: Move[] = bags.map((mass) => ({ kind: 'piece', massG: String(mass) }))
        const all = bags.reduce((total, mass) => total + mass, 0)
        const drawn = seed % (all + 1)
        moves.push({ kind: 'drawn', from: 'unnamed', massG: String(drawn), since: true })
        for (const mass of bags) moves.push({ kind: 'away', massG: String(mass), disposed: true })
        // All that was set apart is used or thrown away by now, and each gram once.
        expect(drawn + Number(accountOf(moves).goneG)).toBe(all)
      },
    ),
  )
})
