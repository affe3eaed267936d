import { expect, test } from 'vitest'
import { allowedActs, applyAct, mayTest } from './apply-act.ts'
import { notBegun, type CustodyAct, type CustodyOutcome, type CustodyState, type Person } from './custody.ts'

const B: Person = { kind: 'person', id: 'b', name: 'B. Ostrow' }
const A: Person = { kind: 'person', id: 'a', name: 'A. Fenn' }
const store = { kind: 'place', id: 's', name: 'Store', accessControlled: true } as const
const yard = { kind: 'place', id: 'y', name: 'Yard', accessControlled: false } as const
const quarry = { kind: 'party', name: 'Skerry Edge Quarry' } as const

const received: CustodyAct = { kind: 'received', by: B, from: quarry, to: B, massG: '74200' }

/** The state after acts that must all be allowed. */
function after(...acts: readonly CustodyAct[]): CustodyState {
  return acts.reduce<CustodyState>((state, act) => {
    const outcome = applyAct(state, act)
    if (!outcome.ok) throw new Error(outcome.sentence)
    return outcome.state
  }, notBegun('sample'))
}
const codeOf = (outcome: CustodyOutcome) => (outcome.ok ? 'done' : outcome.code)
const sentenceOf = (outcome: CustodyOutcome) => (outcome.ok ? '' : outcome.sentence)

test('a sample is received, put into a place with access control, and taken over by another person', () => {
  expect(after(received, { kind: 'placed', by: B, to: store }, { kind: 'taken', by: A })).toEqual({
    status: 'with',
    custodian: A,
    massG: '74200',
  })
})

test('a place that anybody can enter has no custody', () => {
  const outcome = applyAct(after(received), { kind: 'placed', by: B, to: yard })
  expect(codeOf(outcome)).toBe('open-place')
  expect(sentenceOf(outcome)).toContain('Anybody can enter Yard')
  expect(codeOf(applyAct(notBegun('sample'), { ...received, to: yard }))).toBe('open-place')
})

test('what another person has is taken over first', () => {
  const outcome = applyAct(after(received), { kind: 'placed', by: A, to: store })
  expect(sentenceOf(outcome)).toBe('B. Ostrow has it: take it over first.')
  expect(codeOf(applyAct(after(received), { kind: 'taken', by: B }))).toBe('already-has')
})

test('a sample begins with its receipt, what is made here with whoever takes it', () => {
  expect(codeOf(applyAct(notBegun('sample'), { kind: 'taken', by: B }))).toBe('not-received')
  expect(codeOf(applyAct(notBegun('specimen'), received))).toBe('not-received')
  expect(codeOf(applyAct(notBegun('specimen'), { kind: 'taken', by: B }))).toBe('done')
  expect(codeOf(applyAct(after(received), received))).toBe('already-here')
})

test('out of the laboratory it takes two: an offer that is answered, or a receipt there and then', () => {
  const away = { kind: 'party', name: 'Regional laboratory' } as const
  expect(codeOf(applyAct(after(received), { kind: 'sent', by: B, to: away, receipt: ' ' }))).toBe('one-sided')
  const offered = after(received, { kind: 'offered', by: B, to: away })
  expect(offered).toMatchObject({ status: 'offered', custodian: B, to: away })
  expect(codeOf(applyAct(offered, { kind: 'taken', by: A }))).toBe('offered')
  expect(applyAct(offered, { kind: 'refused', by: B, reason: 'Bag torn' })).toMatchObject({
    state: { status: 'with', custodian: B },
  })
  const gone = after(
    received,
    { kind: 'offered', by: B, to: away },
    { kind: 'accepted', by: B, receipt: 'Signed: J. Moor' },
  )
  expect(gone).toMatchObject({ status: 'with', custodian: away })
  expect(codeOf(applyAct(gone, { kind: 'placed', by: B, to: store }))).toBe('outside')
  expect(applyAct(gone, { ...received, from: away, massG: null })).toMatchObject({
    state: { custodian: B, massG: '74200' },
  })
})

test('a test needs custody inside the laboratory', () => {
  const reason = (state: CustodyState) => {
    const outcome = mayTest(state)
    return outcome.ok ? 'may' : outcome.code
  }
  expect(reason(notBegun('sample'))).toBe('not-received')
  expect(reason(after(received))).toBe('may')
  expect(reason(after(received, { kind: 'placed', by: B, to: store }))).toBe('may')
  expect(reason(after(received, { kind: 'offered', by: B, to: quarry }))).toBe('offered')
  expect(reason(after(received, { kind: 'returned', by: B, to: quarry, receipt: 'Note 7' }))).toBe('outside')
  expect(reason(after(received, { kind: 'disposed', by: B, reason: 'Retention over' }))).toBe('disposed')
  const pieces = [{ id: 'p', massG: '74200' }]
  const all: CustodyAct = { kind: 'split', by: B, pieces, lossG: '0', leftG: null, weighedG: null }
  expect(reason(after(received, all))).toBe('used-up')
  expect(codeOf(applyAct(after(received, all), all))).toBe('used-up')
})

test('a split keeps mass to the last gram, and its refusal says the numbers', () => {
  const split = (change: Partial<Extract<CustodyAct, { kind: 'split' }>>) =>
    applyAct(after(received), {
      kind: 'split',
      by: B,
      pieces: [
        { id: '1', massG: '27200' },
        { id: '2', massG: '5400' },
      ],
      lossG: '150',
      leftG: null,
      weighedG: null,
      ...change,
    })
  expect(split({})).toMatchObject({
    ok: true,
    state: { massG: '41450', custodian: B },
    pieces: [
      { id: '1', state: { massG: '27200', custodian: B } },
      { id: '2', state: { massG: '5400', custodian: B } },
    ],
  })
  expect(split({ leftG: '41450' })).toMatchObject({ ok: true })
  expect(sentenceOf(split({ leftG: '41430' }))).toBe(
    'Pieces of 32600 g and 150 g lost leave 41450 g of 74200 g, but 41430 g were weighed: 20 g are missing; add them to the loss.',
  )
  expect(sentenceOf(split({ leftG: '41470' }))).toContain('20 g too much')
  expect(sentenceOf(split({ lossG: '41600.5' }))).toContain('0.5 g more than the 74200 g there were')
  expect(codeOf(split({ pieces: [] }))).toBe('not-a-mass')
  expect(codeOf(split({ pieces: [{ id: '1', massG: '0' }] }))).toBe('not-a-mass')
  expect(codeOf(split({ lossG: '-1' }))).toBe('not-a-mass')
  expect(codeOf(split({ weighedG: '74000' }))).toBe('mass-known')
})

test('what was never weighed is weighed before it is split', () => {
  const unweighed = after({ ...received, massG: null })
  const split: CustodyAct = {
    kind: 'split',
    by: B,
    pieces: [{ id: '1', massG: '4800' }],
    lossG: '0',
    leftG: null,
    weighedG: null,
  }
  expect(codeOf(applyAct(unweighed, split))).toBe('mass-unknown')
  expect(applyAct(unweighed, { ...split, weighedG: '5000' })).toMatchObject({ state: { massG: '200' } })
  expect(codeOf(applyAct(notBegun('sample'), { ...received, massG: '0' }))).toBe('not-a-mass')
})

test('a gap is told with its reason, and the item is with who found it', () => {
  expect(codeOf(applyAct(after(received), { kind: 'gap', by: A, reason: '' }))).toBe('no-reason')
  const found = after(received, { kind: 'gap', by: A, reason: 'Stood in the yard over night' })
  expect(found).toMatchObject({ status: 'with', custodian: A })
})

test('what is offered as possible is what the state allows', () => {
  expect(allowedActs(notBegun('sample'), B)).toEqual(['received'])
  expect(allowedActs(after(received), B)).toEqual(['placed', 'split', 'offered', 'sent', 'returned', 'disposed', 'gap'])
  expect(allowedActs(after(received), A)).toEqual(['taken', 'gap'])
  expect(allowedActs(after(received, { kind: 'disposed', by: B, reason: 'Retention over' }), B)).toEqual([])
})
