import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { ApiProblem } from '#lib/api-problem.ts'
import { createHearing } from '#lib/outbox/hearing.ts'
import type { NewOutboxEntry, OutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { memoryStore } from '#lib/outbox/outbox-store.fake.ts'
import { createOutbox } from '#lib/outbox/outbox.ts'
import { answerMs, sendActs } from './send-acts.ts'

const person = { labId: 'l', membershipId: 'me', personName: 'Me' }
const time = { eventAt: '2026-03-05T08:01:00.000Z', eventFrom: 'now', toldAt: '', sentAt: '' } as const
const of = { membershipId: 'me', path: '/api/labs/l/step-events', group: 'press', topicsOf: () => ['bench'] }
const reading = (id: string): NewOutboxEntry => ({
  id,
  lane: 't1',
  path: '/api/labs/l/tests/t1/readings',
  body: { id },
  label: `reading ${id}`,
  topics: [],
})
const away = () => Promise.reject(new ApiProblem('network', 0, 'away', ''))

let kept: Map<string, OutboxEntry>
let sent: unknown[]
let answer: (entry: OutboxEntry) => Promise<unknown>
let instrumentId: string | null

beforeEach(() => {
  vi.useFakeTimers()
  kept = new Map()
  sent = []
  instrumentId = null
  answer = ({ body }) => {
    const { rows = [] } = body as { rows?: { testId: string }[] }
    return Promise.resolve({ rows: rows.map(({ testId }) => ({ id: testId, outcome: 'done', sentence: null })) })
  }
})
afterEach(() => void vi.useRealTimers())

/** A device whose page sends as soon as something is put, as the provider does. */
function device() {
  const hearing = createHearing()
  const outbox = createOutbox({
    store: memoryStore(kept),
    send: (entry) => {
      sent.push([entry.id, entry.body])
      return answer(entry)
    },
    now: () => new Date('2026-03-05T08:01:00Z'),
    tell: (news) => hearing.note(news),
  })
  const press = (...testIds: string[]) =>
    sendActs(
      {
        entries: [...kept.values()],
        replace: async (ids, ...entries) => {
          await outbox.replace(person, ids, ...entries)
          void outbox.sendAll('me')
        },
        letGo: outbox.letGo,
        listen: hearing.listen,
      },
      {
        stepKey: 'cure',
        kind: 'start',
        instrumentId,
        time,
        rows: testIds.map((testId) => ({ id: `act ${testId} ${(made += 1)}`, testId })),
        labels: {},
      },
      of,
    )
  let made = 0
  return { outbox, press }
}
const outcomes = ({ rows }: Awaited<ReturnType<typeof sendActs>>) =>
  rows.map(({ id, outcome, sentence }) => [id, outcome, ...(sentence === null ? [] : [sentence])])

test('many specimens go in one request, and each has its outcome', async () => {
  expect(outcomes(await device().press('t1', 't2'))).toEqual([
    ['t1', 'done'],
    ['t2', 'done'],
  ])
  expect(sent).toHaveLength(1)
  expect(kept.size).toBe(0)
})

test('with a network that hangs the act is on the device at once, with its id and time, and is said to be kept', async () => {
  answer = () => new Promise(() => undefined)
  const pressed = device().press('t1')
  await vi.advanceTimersByTimeAsync(1)
  expect([...kept.values()]).toMatchObject([{ id: 'act t1 1', lane: 't1', body: { time, rows: [{ testId: 't1' }] } }])
  await vi.advanceTimersByTimeAsync(answerMs)
  expect(outcomes(await pressed)).toEqual([['t1', 'kept']])
  // The battery is empty; another page sends it.
  answer = () => Promise.resolve({ rows: [] })
  await device().outbox.sendAll('me')
  expect(sent[1]).toEqual(sent[0])
  expect(kept.size).toBe(0)
})

test.each([0, 401, 502, 503, 504])('after an answer of %i it is kept, without a wait', async (status) => {
  answer = () => Promise.reject(new ApiProblem('x', status, 'x', ''))
  expect(outcomes(await device().press('t1', 't2'))).toEqual([
    ['t1', 'kept'],
    ['t2', 'kept'],
  ])
  expect(kept.size).toBe(2)
})

test.each(['sending', 'queued'] as const)('it passes no reading of its specimen that is %s', async (state) => {
  const { outbox, press } = device()
  await outbox.put(person, reading('r1'))
  kept.set('r1', { ...kept.get('r1')!, state, attempts: state === 'sending' ? 3 : 0 })
  answer = away
  expect(outcomes(await press('t1'))).toEqual([['t1', 'kept']])
  expect(sent).toEqual([['r1', { id: 'r1' }]])
})

test('it waits behind a reading that was refused', async () => {
  const { outbox, press } = device()
  await outbox.put(person, reading('r1'))
  kept.set('r1', { ...kept.get('r1')!, state: 'refused' })
  expect(outcomes(await press('t1'))).toEqual([['t1', 'kept']])
  expect(sent).toEqual([])
})

test('a refused row is told with its sentence and leaves the device', async () => {
  answer = () => Promise.reject(new ApiProblem('refused-rows', 200, 'Too early.', '', []))
  expect(outcomes(await device().press('t1'))).toEqual([['t1', 'refused', 'Too early.']])
  expect(kept.size).toBe(0)
})

test('a refusal of the whole act is thrown with its fields, and nothing of it stays', async () => {
  const errors = [{ path: 'instrumentId', message: 'It is out of use.' }]
  answer = () => Promise.reject(new ApiProblem('invalid-input', 400, 'Refused', '', errors))
  await expect(device().press('t1', 't2')).rejects.toMatchObject({ status: 400, errors })
  expect(kept.size).toBe(0)
})

test('pressed again, it takes the place of one that was refused while nobody looked', async () => {
  const { outbox, press } = device()
  answer = away
  await press('t1')
  answer = () => Promise.reject(new ApiProblem('refused-rows', 200, 'Too early.', '', []))
  await outbox.sendAll('me')
  expect([...kept.values()]).toMatchObject([{ id: 'act t1 1', state: 'refused' }])
  answer = () => Promise.resolve({ rows: [] })
  expect(outcomes(await press('t1'))).toEqual([['t1', 'done']])
  expect(kept.size).toBe(0)
})

test('pressed again, it goes before what waited behind the refused one; refused again, that waits on', async () => {
  const { outbox, press } = device()
  answer = away
  await press('t1')
  await outbox.put(person, reading('r1'))
  answer = () => Promise.reject(new ApiProblem('refused-rows', 200, 'Too early.', '', []))
  await outbox.sendAll('me')
  sent = []
  expect(outcomes(await press('t1'))).toEqual([['t1', 'refused', 'Too early.']])
  expect(sent).toMatchObject([['act t1 2', {}]])
  expect([...kept.values()].map(({ state }) => state).toSorted()).toEqual(['queued', 'refused'])
  sent = []
  answer = () => Promise.resolve({ rows: [] })
  expect(outcomes(await press('t1'))).toEqual([['t1', 'done']])
  await vi.advanceTimersByTimeAsync(answerMs)
  expect(sent).toMatchObject([
    ['act t1 3', {}],
    ['r1', {}],
  ])
  expect(kept.size).toBe(0)
})

const temperature = { id: 'read', typed: '60.4', instrumentId: null }
/** A put-in of a load that was refused while nobody looked. */
const refusedPutIn = (extra: Partial<OutboxEntry> = {}): OutboxEntry => ({
  ...person,
  id: 'in t1',
  lane: 'load/x',
  path: '/api/labs/l/loads/x/in',
  body: { opens: 'oven', rows: [{ id: 'in t1', testId: 't1', stepKey: 'cure' }], time, temperature },
  label: 'Put into OV-1: 10-1; temperature 60.4',
  topics: ['loads'],
  rows: [{ id: 'in t1', lane: 't1', label: '' }],
  queuedAt: '',
  order: 1,
  attempts: 1,
  state: 'refused',
  problem: { code: 'refused-rows', status: 200, message: 'Too early.', errors: [], extra: {} },
  ...extra,
})

test('a refused put-in of a load confirmed anew goes into that load, with the temperature that was typed', async () => {
  kept.set('in t1', refusedPutIn())
  expect(outcomes(await device().press('t1', 't2'))).toEqual([
    ['t1', 'done'],
    ['t2', 'done'],
  ])
  expect(sent).toMatchObject([
    ['act t1 1', { opens: 'oven', rows: [{ id: 'act t1 1', testId: 't1', stepKey: 'cure' }], temperature }],
    ['act t2 2', { stepKey: 'cure', kind: 'start', rows: [{ testId: 't2' }] }],
  ])
  expect(kept.size).toBe(0)
})

test('refused again, it stays with its temperature, for the next press', async () => {
  kept.set('in t1', refusedPutIn())
  const { press } = device()
  answer = () => Promise.reject(new ApiProblem('refused-rows', 200, 'Too early.', '', [], { answer: { rows: [] } }))
  expect(outcomes(await press('t1'))).toEqual([['t1', 'refused', 'Too early.']])
  expect([...kept.values()]).toMatchObject([{ id: 'act t1 1', state: 'refused', body: { temperature } }])
  answer = () => Promise.resolve({ rows: [] })
  expect(outcomes(await press('t1'))).toEqual([['t1', 'done']])
  expect(sent[1]).toMatchObject(['act t1 2', { opens: 'oven', temperature }])
  expect(kept.size).toBe(0)
})

test('put into another oven, the temperature goes into the log of the one that it was read in, at its own time', async () => {
  kept.set('in t1', refusedPutIn({ body: { ...(refusedPutIn().body as object), opens: 'other', time } }))
  const { press } = device()
  instrumentId = 'oven'
  expect(outcomes(await press('t1'))).toEqual([['t1', 'done']])
  await vi.advanceTimersByTimeAsync(answerMs)
  expect(sent).toMatchObject([
    ['act t1 1', { instrumentId: 'oven', rows: [{ testId: 't1' }] }],
    ['read', { values: [{ id: 'read', value: '60.4' }], time }],
  ])
})
