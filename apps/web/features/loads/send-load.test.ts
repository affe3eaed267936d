import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { answerMs } from '#features/bench/send-acts.ts'
import { ApiProblem } from '#lib/api-problem.ts'
import { createHearing } from '#lib/outbox/hearing.ts'
import type { NewOutboxEntry, OutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { memoryStore } from '#lib/outbox/outbox-store.fake.ts'
import { createOutbox } from '#lib/outbox/outbox.ts'
import { loadReadingFault } from './load-reading-fault.ts'
import { sendLoad } from './send-load.ts'

const person = { labId: 'l', membershipId: 'me', personName: 'Me' }
let kept: Map<string, OutboxEntry>
let sent: string[]
let answer: () => Promise<unknown>

beforeEach(() => {
  vi.useFakeTimers()
  kept = new Map()
  sent = []
})
afterEach(() => void vi.useRealTimers())

const move = (...testIds: string[]): NewOutboxEntry => ({
  id: 'row t1',
  lane: 'load/x',
  path: '/api/labs/l/loads/x/in',
  body: { rows: testIds.map((testId) => ({ id: `row ${testId}`, testId })) },
  label: 'In',
  topics: [],
  rows: testIds.map((testId) => ({ id: `row ${testId}`, lane: testId, label: testId })),
})
const answered = (...refused: string[]) => ({
  outcome: {
    rows: ['t1', 't2'].map((id) =>
      refused.includes(id) ? { id, outcome: 'refused', sentence: 'No.' } : { id, outcome: 'done', sentence: null },
    ),
  },
})

/** A page that sends as soon as something is put, as the provider does. */
function press(entry: NewOutboxEntry, replaces: readonly string[] = [], keeps = false) {
  const hearing = createHearing()
  const outbox = createOutbox({
    store: memoryStore(kept),
    send: (entry) => {
      sent.push(entry.id)
      return answer()
    },
    now: () => new Date('2026-03-05T08:01:00Z'),
    tell: (news) => hearing.note(news),
  })
  const replace = async (ids: readonly string[], ...entries: readonly NewOutboxEntry[]) => {
    await outbox.replace(person, ids, ...entries)
    void outbox.sendAll('me')
  }
  return sendLoad({ replace, letGo: outbox.letGo, listen: hearing.listen }, entry, { replaces, keeps })
}

test('with a server it is done', async () => {
  answer = () => Promise.resolve(answered())
  expect((await press(move('t1', 't2'))).map(({ outcome }) => outcome)).toEqual(['done', 'done'])
  expect(kept.size).toBe(0)
})

test.each([0, 502, 504])('after %i it is kept, each specimen of it', async (status) => {
  answer = () => Promise.reject(new ApiProblem('x', status, 'away', ''))
  expect((await press(move('t1', 't2'))).map(({ outcome }) => outcome)).toEqual(['kept', 'kept'])
  expect([...kept.values()]).toMatchObject([{ id: 'row t1', state: 'queued' }])
})

test('with a network that hangs it is said to be kept', async () => {
  answer = () => new Promise(() => undefined)
  const pressed = press(move('t1'))
  await vi.advanceTimersByTimeAsync(answerMs)
  expect(await pressed).toEqual([{ id: 't1', outcome: 'kept', sentence: null }])
  expect(kept.size).toBe(1)
})

test('refused at once, what carries something that no field shows stays on the device with it', async () => {
  answer = () => Promise.reject(new ApiProblem('refused-rows', 200, 'No.', '', [], { answer: answered('t1') }))
  expect(await press(move('t1'), [], true)).toMatchObject([{ id: 't1', outcome: 'refused', sentence: 'No.' }])
  expect([...kept.values()]).toMatchObject([{ id: 'row t1', state: 'refused' }])
})

test('a specimen that is refused at once is told and leaves the device', async () => {
  const problem = new ApiProblem('refused-rows', 200, 'No.', '', [], { answer: answered('t2') })
  answer = () => Promise.reject(problem)
  expect(await press(move('t1', 't2'))).toEqual([
    { id: 't1', outcome: 'done', sentence: null },
    { id: 't2', outcome: 'refused', sentence: 'No.' },
  ])
  expect(kept.size).toBe(0)
})

test('a refusal of all of it is thrown with its fields, and nothing of it stays', async () => {
  const errors = [{ path: 'temperature.typed', message: 'More than the thermometer shows.' }]
  answer = () => Promise.reject(new ApiProblem('invalid-input', 400, 'Refused', '', errors))
  await expect(press(move('t1', 't2'))).rejects.toMatchObject({ status: 400, errors })
  expect(kept.size).toBe(0)
})

test('pressed anew it takes the place of what was refused while nobody looked', async () => {
  answer = () => Promise.reject(new ApiProblem('network', 0, 'away', ''))
  await press({ ...move('t1'), id: 'before' })
  kept.set('before', { ...kept.get('before')!, state: 'refused' })
  answer = () => Promise.resolve(answered())
  expect((await press(move('t1'), ['before']))[0]).toMatchObject({ outcome: 'done' })
  expect(kept.size).toBe(0)
})

test('put in again in the place of what was refused, it goes before what waited behind that, and nothing goes before it', async () => {
  answer = () => Promise.reject(new ApiProblem('network', 0, 'away', ''))
  await press({ ...move('t1'), id: 'in' })
  const out = { ...move('t1'), id: 'out', path: '/api/labs/l/loads/x/out' }
  await press(out)
  kept.set('in', { ...kept.get('in')!, state: 'refused' })
  sent = []
  answer = () => Promise.resolve(answered())
  expect((await press({ ...move('t1'), id: 'in again', lane: 'load/y' }, ['in']))[0]).toMatchObject({ outcome: 'done' })
  await vi.advanceTimersByTimeAsync(answerMs)
  expect(sent).toEqual(['in again', 'out'])
  expect(kept.size).toBe(0)
})

test('refused again it stays in its place, so that what waits behind it does not go without it', async () => {
  answer = () => Promise.reject(new ApiProblem('network', 0, 'away', ''))
  await press({ ...move('t1'), id: 'in' })
  await press({ ...move('t1'), id: 'out', path: '/api/labs/l/loads/x/out' })
  kept.set('in', { ...kept.get('in')!, state: 'refused' })
  sent = []
  answer = () => Promise.reject(new ApiProblem('refused-by-rule', 422, 'Not yet.', ''))
  await expect(press({ ...move('t1'), id: 'again' }, ['in'])).rejects.toMatchObject({ status: 422 })
  expect(sent).toEqual(['again'])
  expect([...kept.values()].map(({ id, state }) => [id, state]).toSorted()).toEqual([
    ['again', 'refused'],
    ['out', 'queued'],
  ])
})

test('what cannot be a reading of a load does not go on the device', () => {
  expect(loadReadingFault('temperature', '60,4')).toBeUndefined()
  expect(loadReadingFault('temperature', '60.4 g')).toContain('degrees Celsius')
  expect(loadReadingFault('warm-mass', 'dry')).toBeDefined()
})
