import { expect, test } from 'vitest'
import { type Assignable, decideAssignments } from './assignment-rules.ts'

const disc = (changes: Partial<Assignable> = {}): Assignable => ({
  testId: 'disc',
  label: '12-1',
  code: '3F7K',
  state: 'waiting',
  assigneeId: null,
  pairedId: 'batch',
  ...changes,
})
const batch = (changes: Partial<Assignable> = {}): Assignable => ({
  testId: 'batch',
  label: '12-1',
  code: '3F7K.B',
  state: 'waiting',
  assigneeId: null,
  pairedId: 'disc',
  ...changes,
})

function decide(
  tests: Assignable[],
  { to = 'anna', reason, testIds = ['disc'] }: { to?: string | null; reason?: string; testIds?: string[] } = {},
) {
  const { outcomes, given } = decideAssignments({ testIds, to, reason }, tests)
  return { outcomes: outcomes.map(({ outcome }) => outcome), given: given.map(({ testId }) => testId) }
}

test('a specimen takes its batch along, and the batch its specimen', () => {
  expect(decide([disc(), batch()])).toEqual({ outcomes: ['done'], given: ['disc', 'batch'] })
  expect(decide([disc(), batch()], { testIds: ['batch'] })).toEqual({ outcomes: ['done'], given: ['batch', 'disc'] })
  expect(decide([disc(), batch()], { testIds: ['disc', 'batch', 'disc'] })).toEqual({
    outcomes: ['done', 'done'],
    given: ['disc', 'batch'],
  })
})

test('a batch that is cast stays with who cast it', () => {
  expect(decide([disc(), batch({ state: 'done', assigneeId: 'ben' })])).toEqual({ outcomes: ['done'], given: ['disc'] })
})

test('a begun test is taken from somebody only with a reason', () => {
  const tests = [disc({ state: 'in-work', assigneeId: 'ben' }), batch({ state: 'done', assigneeId: 'ben' })]
  expect(decide(tests)).toEqual({ outcomes: ['refused'], given: [] })
  expect(decide(tests, { reason: 'Ben is away' })).toEqual({ outcomes: ['done'], given: ['disc'] })
  expect(decide(tests, { to: null })).toEqual({ outcomes: ['refused'], given: [] })
})

test('a test not begun changes hands without a reason, and a begun one that is nobody’s finds its person', () => {
  expect(decide([disc({ assigneeId: 'ben' }), batch({ assigneeId: 'ben' })]).outcomes).toEqual(['done'])
  expect(decide([disc({ state: 'in-work' }), batch({ state: 'done' })]).given).toEqual(['disc'])
})

test('giving it to whom it belongs already changes nothing', () => {
  expect(decide([disc({ assigneeId: 'anna', state: 'in-work' }), batch({ assigneeId: 'anna' })])).toEqual({
    outcomes: ['done'],
    given: [],
  })
})

test('an ended or unknown test is refused, the others go on', () => {
  for (const state of ['done', 'void', 'replaced'])
    expect(decide([disc({ state }), batch()]).outcomes).toEqual(['refused'])
  expect(decide([disc(), batch()], { testIds: ['elsewhere', 'disc'] })).toEqual({
    outcomes: ['refused', 'done'],
    given: ['disc', 'batch'],
  })
})
