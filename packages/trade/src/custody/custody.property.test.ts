import fc from 'fast-check'
import { expect, test } from 'vitest'
import { decimal } from '../quantity/decimal.ts'
import { allowedActs, applyAct, mayTest } from './apply-act.ts'
import { notBegun, type CustodyAct, type CustodyState, type Person } from './custody.ts'

const people: readonly Person[] = ['A. Fenn', 'B. Ostrow', 'C. Hale'].map((name) => ({
  kind: 'person',
  id: name,
  name,
}))
const places = [
  { kind: 'place', id: 'store', name: 'Store', accessControlled: true },
  { kind: 'place', id: 'oven', name: 'Oven 1', accessControlled: true },
  { kind: 'place', id: 'yard', name: 'Yard', accessControlled: false },
] as const
const parties = [
  { kind: 'party', name: 'Quarry' },
  { kind: 'party', name: 'Carrier' },
] as const

const by = fc.constantFrom(...people)
const place = fc.constantFrom(...places)
const party = fc.constantFrom(...parties)
const word = fc.constantFrom('', ' ', 'Note 7')
const grams = fc.oneof(fc.integer({ min: 0, max: 3000 }).map(String), fc.constantFrom('0', '0.1', '812.4', '74200'))
const orNull = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null })

/** Any act that can be written down, sensible or not. Received once with a mass: what comes back brings none. */
const anyAct: fc.Arbitrary<CustodyAct> = fc.oneof(
  fc.record({
    kind: fc.constant('received' as const),
    by,
    from: party,
    to: fc.oneof(by, place),
    massG: fc.constant(null),
  }),
  fc.record({ kind: fc.constant('taken' as const), by }),
  fc.record({ kind: fc.constant('placed' as const), by, to: place }),
  fc.record({
    kind: fc.constant('split' as const),
    by,
    pieces: fc.array(fc.record({ id: fc.uuid(), massG: grams }), { maxLength: 4 }),
    lossG: grams,
    leftG: orNull(grams),
    weighedG: orNull(grams),
  }),
  fc.record({ kind: fc.constant('offered' as const), by, to: party }),
  fc.record({ kind: fc.constant('accepted' as const), by, receipt: word }),
  fc.record({ kind: fc.constantFrom('sent' as const, 'returned' as const), by, to: party, receipt: word }),
  fc.record({ kind: fc.constantFrom('refused' as const, 'disposed' as const, 'gap' as const), by, reason: word }),
)
const start: CustodyAct = { kind: 'received', by: people[0]!, from: parties[0], to: people[0]!, massG: '74200' }

/** Custodians that a state names: the union of types allows one; this counts them all the same. */
function custodians(state: CustodyState): number {
  return Object.entries(state).filter(([key, value]) => key === 'custodian' && value !== null).length
}

test('no sequence of acts gives two custodians, none, an open place, or an act after disposal', () => {
  fc.assert(
    fc.property(fc.array(anyAct, { maxLength: 40 }), (acts) => {
      let state = notBegun('sample')
      for (const act of [start, ...acts]) {
        const outcome = applyAct(state, act)
        if (state.status === 'disposed') expect(outcome).toMatchObject({ ok: false, code: 'disposed' })
        if (!outcome.ok) {
          expect(outcome.sentence).toMatch(/^[A-Z].+[.]$/)
          continue
        }
        expect(allowedActs(state, act.by)).toContain(act.kind)
        for (const next of [outcome.state, ...outcome.pieces.map((piece) => piece.state)]) {
          expect(custodians(next)).toBe(next.status === 'disposed' ? 0 : 1)
          expect(next.status).not.toBe('not-begun')
          if (next.status === 'offered') expect(next.custodian.kind).not.toBe('party')
          if (next.status === 'with') expect(JSON.stringify(next.custodian)).not.toContain('Yard')
        }
        state = outcome.state
      }
    }),
    { numRuns: 400 },
  )
})

test('a test is allowed only in the care of a person or a guarded place of the laboratory', () => {
  fc.assert(
    fc.property(fc.array(anyAct, { maxLength: 30 }), (acts) => {
      let state = notBegun('sample')
      for (const act of acts) {
        const outcome = applyAct(state, act)
        if (outcome.ok) state = outcome.state
        const inside = state.status === 'with' && state.custodian.kind !== 'party'
        if (mayTest(state).ok) expect(inside).toBe(true)
        else expect(inside && state.status === 'with' && state.massG !== '0').toBe(false)
      }
    }),
  )
})

test('mass is kept over any tree of splits: what stands plus what was lost is what came', () => {
  // Twelve splits in hundredths stay within the 34 digits of the arithmetic.
  const step = fc.record({
    of: fc.nat(),
    shares: fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 4 }),
    loss: fc.integer({ min: 0, max: 5 }),
  })
  fc.assert(
    fc.property(fc.integer({ min: 1000, max: 99_999 }), fc.array(step, { maxLength: 12 }), (tenths, steps) => {
      const total = decimal(tenths).div(10)
      const begun = applyAct(notBegun('sample'), { ...start, massG: total.toFixed() } as CustodyAct)
      const standing: CustodyState[] = begun.ok ? [begun.state] : []
      let lost = decimal(0)
      for (const { of, shares, loss } of steps) {
        const at = of % standing.length
        const state = standing[at]!
        if (state.status !== 'with' || state.massG === null || state.massG === '0') continue
        // Shares of what is there, in hundredths; four of 40 are more than there is, and refused.
        const part = (hundredths: number) => decimal(state.massG!).times(hundredths).div(100).toFixed()
        const outcome = applyAct(state, {
          kind: 'split',
          by: people[0]!,
          pieces: shares.map((share, index) => ({ id: String(index), massG: part(share) })),
          lossG: part(loss),
          leftG: null,
          weighedG: null,
        })
        if (!outcome.ok) {
          expect(outcome.code).toBe('mass-not-kept')
          expect(shares.reduce((sum, share) => sum + share, loss)).toBeGreaterThan(100)
          continue
        }
        standing[at] = outcome.state
        standing.push(...outcome.pieces.map((piece) => piece.state))
        lost = lost.plus(part(loss))
      }
      const held = standing.reduce((sum, state) => (state.status === 'with' ? sum.plus(state.massG!) : sum), decimal(0))
      expect(held.plus(lost).toFixed()).toBe(total.toFixed())
    }),
  )
})
