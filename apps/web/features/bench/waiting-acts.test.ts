import { expect, test } from 'vitest'
import type { OutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { outcomeNow, refusedAlready, savingOfActs, stillToDo, waitingActs } from './waiting-acts.ts'

const at = '2026-03-04T08:00:00Z'
const acted = (testId: string) => ({
  stepKey: 'cure',
  kind: 'start',
  time: { eventAt: at },
  rows: [{ id: 'r', testId }],
})
const entry = (more: Partial<OutboxEntry>): OutboxEntry => ({
  id: 'e',
  lane: 't',
  path: '/api/labs/l/step-events',
  body: acted('t'),
  label: '',
  topics: [],
  labId: 'l',
  membershipId: 'me',
  personName: 'Me',
  queuedAt: '',
  order: 1,
  attempts: 0,
  state: 'queued',
  ...more,
})

test('acts that wait are told from readings, and mine from those of others', () => {
  const entries = [
    entry({}),
    entry({ id: 'f', state: 'refused', lane: 'u', body: acted('u') }),
    entry({ id: 'g', path: '/api/labs/l/tests/t/readings' }),
    entry({ id: 'h', membershipId: 'other' }),
  ]
  const act = { stepKey: 'cure', kind: 'start', at: '2026-03-04T08:00:00Z' }
  expect(waitingActs(entries, 'me')).toEqual([
    { id: 'e', testId: 't', ...act, refused: false, reason: undefined, behind: undefined },
    { id: 'f', testId: 'u', ...act, refused: true, reason: undefined, behind: undefined },
  ])
})

test('an act that waits here is not asked for again, a refused one is', () => {
  const acts = waitingActs([entry({}), entry({ id: 'f', lane: 'u', state: 'refused', body: acted('u') })], 'me')
  const task = (testId: string, act: 'start' | 'end' | 'reading') => ({ testId, stepKey: 'cure', act })
  const tasks = [task('t', 'start'), task('t', 'end'), task('u', 'start')]
  expect(stillToDo(tasks, acts)).toEqual(tasks.slice(1))
})

test('an act says which refused entry of its test it waits behind, and nothing of those of others', () => {
  const reading = { path: '/api/labs/l/tests/t/readings', label: 'W1: 812.4', state: 'refused' } as const
  const behind = (...before: OutboxEntry[]) =>
    waitingActs([...before, entry({ id: 'a', order: 9 })], 'me').at(-1)?.behind
  expect(behind(entry({ ...reading }))).toBe('W1: 812.4')
  for (const other of [{ lane: 'u' }, { membershipId: 'other' }, { order: 10 }, { state: 'queued' as const }])
    expect(behind(entry({ ...reading, ...other }))).toBeUndefined()
})

test('of refused acts, those of the same step and tests are the ones confirmed anew', () => {
  const refused = { state: 'refused' } as const
  const entries = [entry(refused), entry({ ...refused, id: 'u', lane: 'u', body: acted('u') }), entry({ id: 'queued' })]
  const act = { stepKey: 'cure', kind: 'start', testId: 't' } as const
  expect(refusedAlready(entries, 'me', [act])).toEqual(['e'])
  expect(refusedAlready(entries, 'me', [{ ...act, kind: 'end' }])).toEqual([])
})

test('what is kept here waits and is not said to be saved; once the server has it, it is', () => {
  const saved = { state: 'saved', at: '2026-03-04T08:00:00Z' } as const
  const kept = { outcome: 'kept', sentence: null } as const
  const done = { outcome: 'done', sentence: null } as const
  expect(savingOfActs(saved, [kept, kept, done])).toEqual({ state: 'waiting', count: 2 })
  expect(savingOfActs(saved, [outcomeNow(kept, 'stored', undefined)])).toEqual(saved)
  expect(savingOfActs(saved, [{ outcome: 'refused' }])).toEqual({ state: 'idle' })
  expect(savingOfActs({ state: 'saving' }, [kept])).toEqual({ state: 'saving' })
  const problem = { code: 'refused-rows', status: 200, message: 'Too early.', errors: [], extra: {} }
  expect(outcomeNow(kept, 'refused', { problem })).toEqual({ outcome: 'refused', sentence: 'Too early.' })
  expect(outcomeNow(kept, 'queued', undefined)).toEqual(kept)
})

test('what goes into and out of a load is an act of each of its specimens, and is replaced only as a whole', () => {
  const rows = ['t', 'u'].map((testId) => ({ id: `row ${testId}`, testId, stepKey: 'cure' }))
  const load = (more: Partial<OutboxEntry>, way = 'in') =>
    entry({
      lane: 'load/l',
      path: `/api/labs/l/loads/l/${way}`,
      body: { rows, time: { eventAt: at } },
      rows: rows.map(({ id, testId }) => ({ id, lane: testId, label: testId })),
      ...more,
    })
  const told = (...entries: OutboxEntry[]) =>
    waitingActs(entries, 'me').map(({ testId, kind, refused, behind }) => [testId, kind, refused, behind])
  expect(told(load({ label: 'In', state: 'refused' }), load({ id: 'o', order: 2 }, 'out'))).toEqual([
    ['t', 'start', true, undefined],
    ['u', 'start', true, undefined],
    ['t', 'end', false, 'In'],
    ['u', 'end', false, 'In'],
  ])
  expect(
    told(load({ label: 'In', state: 'refused' }), entry({ id: 'e', order: 2, lane: 'u', body: acted('u') })),
  ).toEqual(expect.arrayContaining([['u', 'start', false, 'In']]))
  expect(told(entry({ path: '/api/labs/l/loads/l/readings', lane: 'load/l' }))).toEqual([])
  const anew = (testId: string) => ({ testId, stepKey: 'cure', kind: 'start' }) as const
  const refused = [load({ state: 'refused' })]
  expect(refusedAlready(refused, 'me', [anew('t')])).toEqual([])
  expect(refusedAlready(refused, 'me', [anew('t'), anew('u')])).toEqual(['e'])
})
