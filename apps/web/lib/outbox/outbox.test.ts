import { beforeEach, describe, expect, test } from 'vitest'
import { ApiProblem } from '../api-problem.ts'
import type { NewOutboxEntry, OutboxEntry } from './outbox-entry.ts'
import { memoryStore } from './outbox-store.fake.ts'
import { createOutbox, type OutboxNews } from './outbox.ts'

const person = { labId: 'lab', membershipId: 'mo', personName: 'Mo' }
const reading = (id: string, lane: string): NewOutboxEntry => ({
  id,
  lane,
  path: '/x',
  body: { id },
  label: id,
  topics: ['bench'],
})

let kept: Map<string, OutboxEntry>
let sent: string[]
let bodies: unknown[]
let news: OutboxNews[]
let answer: (entry: OutboxEntry) => Promise<unknown>

beforeEach(() => {
  kept = new Map()
  sent = []
  bodies = []
  news = []
  answer = () => Promise.resolve({ ok: true })
})

/** A second call on the same `kept` is the page after a reload. */
function open() {
  return createOutbox({
    store: memoryStore(kept),
    send: (entry) => {
      expect(kept.has(entry.id), 'is on the device while it is sent').toBe(true)
      sent.push(entry.id)
      bodies.push(entry.body)
      return answer(entry)
    },
    now: () => new Date('2026-03-05T14:32:00Z'),
    tell: (item) => news.push(item),
  })
}

describe('the outbox', () => {
  test('keeps what was entered until the server has stored it', async () => {
    const outbox = open()
    await outbox.put(person, reading('a', 't1'))
    expect(kept.get('a')).toMatchObject({ state: 'queued', attempts: 0, membershipId: 'mo' })
    await outbox.sendAll('mo')
    expect(kept.size).toBe(0)
    expect(news.at(-1)).toEqual({
      kind: 'stored',
      id: 'a',
      at: '2026-03-05T14:32:00.000Z',
      topics: ['bench'],
      answer: { ok: true },
    })
  })

  test('sends what was entered before a reload', async () => {
    answer = () => Promise.reject(new ApiProblem('network', 0, 'away', ''))
    await open().put(person, reading('a', 't1'))
    expect(await open().sendAll('mo')).toBe(1_000)
    expect(kept.get('a')).toMatchObject({ state: 'queued', attempts: 1 })
    answer = () => Promise.resolve({})
    expect(await open().sendAll('mo')).toBeUndefined()
    expect(kept.size).toBe(0)
  })

  test('sends the readings of a test in the order they were made, and does not pass one that waits', async () => {
    const outbox = open()
    for (const id of ['a', 'b', 'c']) await outbox.put(person, reading(id, 't1'))
    await outbox.put(person, reading('other', 't2'))
    answer = ({ id }) =>
      id === 'b' ? Promise.reject(new ApiProblem('internal', 500, 'fault', '')) : Promise.resolve({})
    await outbox.sendAll('mo')
    expect(sent.filter((id) => id !== 'other')).toEqual(['a', 'b'])
    expect([...kept.keys()]).toEqual(['b', 'c'])
    answer = () => Promise.resolve({})
    await outbox.sendAll('mo')
    expect(sent.filter((id) => id !== 'other')).toEqual(['a', 'b', 'b', 'c'])
  })

  test('keeps a refused entry with what was said, holds its own test and no other', async () => {
    const outbox = open()
    await outbox.put(person, reading('a', 't1'))
    await outbox.put(person, reading('b', 't1'))
    await outbox.put(person, reading('c', 't2'))
    answer = ({ id }) =>
      id === 'a'
        ? Promise.reject(new ApiProblem('conflict', 409, 'Two values', 'Two values.', [], { stored: '812.4' }))
        : Promise.resolve({})
    expect(await outbox.sendAll('mo')).toBeUndefined()
    expect(kept.get('a')).toMatchObject({ state: 'refused', problem: { status: 409, extra: { stored: '812.4' } } })
    expect([...kept.keys()]).toEqual(['a', 'b'])
    // What stands in the record is asked for again: it is not what this screen showed.
    expect(news).toContainEqual(expect.objectContaining({ kind: 'refused', id: 'a', topics: ['bench'] }))
    await outbox.takeOut('a')
    await outbox.sendAll('mo')
    expect(kept.size).toBe(0)
  })

  test('wakes other tabs for what they may send, and not for its own sending', async () => {
    const toSend = () => news.splice(0).flatMap((item) => (item.kind === 'changed' ? [item.toSend] : []))
    const outbox = open()
    await outbox.put(person, reading('a', 't1'))
    expect(toSend()).toEqual([true])
    answer = () => Promise.reject(new ApiProblem('network', 0, 'away', ''))
    await outbox.sendAll('mo')
    // Two tabs without locks would otherwise wake each other without end while the server is away.
    expect(toSend()).toEqual([false, false])
    await outbox.sendAgain('a')
    await outbox.takeOut('a')
    expect(toSend()).toEqual([true, true])
  })

  test('sends a refused entry again when the person says so', async () => {
    const outbox = open()
    await outbox.put(person, reading('a', 't1'))
    answer = () => Promise.reject(new ApiProblem('forbidden', 403, 'No', ''))
    await outbox.sendAll('mo')
    await outbox.sendAgain('a')
    answer = () => Promise.resolve({})
    await outbox.sendAll('mo')
    expect(kept.size).toBe(0)
  })

  test('a reading that is taken out takes its withdrawal with it, and nothing else', async () => {
    const outbox = open()
    await outbox.put(person, reading('a', 't1'))
    await outbox.put(person, { ...reading('back', 't1'), path: '/api/labs/lab/readings/a/withdrawal' })
    await outbox.put(person, { ...reading('other', 't1'), path: '/api/labs/lab/readings/b/withdrawal' })
    answer = () => Promise.reject(new ApiProblem('conflict', 409, 'Two values', ''))
    await outbox.sendAll('mo')
    await outbox.takeOut('a')
    expect([...kept.keys()]).toEqual(['other'])
  })

  test('never sends what another person entered', async () => {
    const outbox = open()
    await outbox.put({ ...person, membershipId: 'ana' }, reading('a', 't1'))
    await outbox.sendAll('mo')
    expect(sent).toEqual([])
    expect(kept.size).toBe(1)
  })

  test('a session that has ended refuses nothing', async () => {
    const outbox = open()
    await outbox.put(person, reading('a', 't1'))
    answer = () => Promise.reject(new ApiProblem('signed-out', 401, 'Sign in', ''))
    await outbox.sendAll('mo')
    expect(kept.get('a')).toMatchObject({ state: 'queued' })
  })

  test('what comes while somebody else is signed in waits for its own person', async () => {
    const outbox = open()
    await outbox.put(person, reading('a', 't1'))
    answer = () => Promise.reject(new ApiProblem('other-person', 425, 'Somebody else is signed in', ''))
    expect(await outbox.sendAll('mo')).toBe(1_000)
    expect(kept.get('a')).toMatchObject({ state: 'queued', membershipId: 'mo' })
  })
})

describe('one act for many', () => {
  const act = (id: string, lane: string, group = 'press'): NewOutboxEntry => ({
    ...reading(id, lane),
    body: { kind: 'start', rows: [{ id, testId: lane }] },
    group,
  })
  const done = (lane: string) => ({ id: lane, outcome: 'done', sentence: null })

  test('goes in one request and is answered row by row', async () => {
    const outbox = open()
    await outbox.put(person, act('a', 't1'), act('b', 't2'), act('c', 't3'))
    const refusedRow = { id: 't2', outcome: 'refused', sentence: 'Too early.' }
    const rows = [done('t1'), refusedRow, done('t3')]
    answer = () => Promise.reject(new ApiProblem('refused-rows', 200, 'Too early.', '', [], { answer: { rows } }))
    await outbox.sendAll('mo')
    const all = ['a', 'b', 'c'].map((id, at) => ({ id, testId: `t${at + 1}` }))
    expect(bodies).toEqual([{ kind: 'start', rows: all }])
    expect([...kept.values()]).toMatchObject([{ id: 'b', state: 'refused', problem: { message: 'Too early.' } }])
    expect(news.flatMap((item) => (item.kind === 'stored' ? [item.id] : []))).toEqual(['a', 'c'])
  })

  test('one that stands behind a reading of its test follows that, and the others do not wait for it', async () => {
    const outbox = open()
    await outbox.put(person, reading('r', 't1'))
    await outbox.put(person, act('a', 't1'), act('b', 't2'), act('c', 't3'))
    answer = ({ id }) =>
      id === 'r'
        ? Promise.reject(new ApiProblem('network', 0, 'away', ''))
        : Promise.resolve({ rows: [done('t2'), done('t3')] })
    await outbox.sendAll('mo')
    expect([...kept.keys()]).toEqual(['r', 'a'])
    expect(news).toContainEqual({ kind: 'changed', toSend: false, waits: ['r', 'a'] })
    answer = () => Promise.resolve({ rows: [done('t1')] })
    await outbox.sendAll('mo')
    expect(sent.filter((id) => id === 'r' || id === 'a')).toEqual(['r', 'r', 'a'])
    expect(kept.size).toBe(0)
  })

  test('a tab that goes down before the answer, or in the middle of it, sends the same ids again', async () => {
    await open().put(person, act('a', 't1'), act('b', 't2'))
    answer = () => new Promise(() => undefined)
    void open().sendAll('mo')
    await Promise.resolve()
    expect([...kept.keys()]).toEqual(['a', 'b'])
    answer = () => Promise.reject(new ApiProblem('internal', 503, 'down', ''))
    expect(await open().sendAll('mo')).toBeDefined()
    expect([...kept.values()].map(({ state }) => state)).toEqual(['queued', 'queued'])
    // The answer of the second is not known: it was missing in what came.
    answer = () => Promise.resolve({ rows: [done('t1')] })
    await open().sendAll('mo')
    expect([...kept.keys()]).toEqual(['b'])
    answer = () => Promise.resolve({ rows: [done('t2')] })
    await open().sendAll('mo')
    expect(bodies.at(-1)).toEqual({ kind: 'start', rows: [{ id: 'b', testId: 't2' }] })
    expect(kept.size).toBe(0)
  })

  test('more than the server takes at once go in several', async () => {
    const outbox = open()
    const many = Array.from({ length: 201 }, (_, at) => act(`a${at}`, `t${at}`))
    await outbox.put(person, ...many)
    answer = ({ body }) =>
      Promise.resolve({ rows: (body as { rows: { testId: string }[] }).rows.map(({ testId }) => done(testId)) })
    await outbox.sendAll('mo')
    expect(bodies.map((body) => (body as { rows: unknown[] }).rows.length)).toEqual([200, 1])
    expect(kept.size).toBe(0)
  })
})

describe('one request about many specimens', () => {
  const row = (id: string) => ({ id: `row ${id}`, testId: id, stepKey: 'cure' })
  const load = (id: string, ...testIds: string[]): NewOutboxEntry => ({
    ...reading(id, 'load/l'),
    body: { rows: testIds.map(row) },
    rows: testIds.map((testId) => ({ id: `row ${testId}`, lane: testId, label: `${testId} of ${id}` })),
  })
  const partly = (...refused: string[]) => {
    const rows = ['t1', 't2', 't3'].map((id) =>
      refused.includes(id)
        ? { id, outcome: 'refused', sentence: `${id} is in already.` }
        : { id, outcome: 'done', sentence: null },
    )
    return Promise.reject(
      new ApiProblem('refused-rows', 200, 'Two sentences.', '', [], { answer: { outcome: { rows } } }),
    )
  }

  test('passes nothing of its specimens, and nothing of them or of the load passes it', async () => {
    const outbox = open()
    await outbox.put(person, reading('r', 't1'))
    await outbox.put(person, load('in', 't1', 't2'))
    for (const lane of ['t1', 't2', 't3', 'load/l']) await outbox.put(person, reading(`after ${lane}`, lane))
    answer = ({ id }) => (id === 'r' ? Promise.reject(new ApiProblem('network', 0, 'away', '')) : Promise.resolve({}))
    expect(await outbox.sendAll('mo')).toBe(1_000)
    expect(sent).toEqual(['r', 'after t3'])
    expect(news).toContainEqual({
      kind: 'changed',
      toSend: false,
      waits: ['r', 'in', 'after t1', 'after t2', 'after load/l'],
    })
    sent = []
    answer = () => Promise.resolve({})
    await outbox.sendAll('mo')
    expect(sent.slice(0, 2)).toEqual(['r', 'in'])
    expect(sent.slice(2).toSorted()).toEqual(['after load/l', 'after t1', 'after t2'])
    expect(kept.size).toBe(0)
  })

  test('of which some were refused leaves those alone behind, each by itself, and lets the others go on', async () => {
    const outbox = open()
    await outbox.put(person, load('in', 't1', 't2', 't3'))
    for (const lane of ['t1', 't2', 'load/l']) await outbox.put(person, reading(`after ${lane}`, lane))
    answer = ({ id }) => (id === 'in' ? partly('t2', 't3') : Promise.resolve({}))
    await outbox.sendAll('mo')
    expect(sent.toSorted()).toEqual(['after load/l', 'after t1', 'in'])
    expect([...kept.values()]).toMatchObject([
      { id: 'after t2', state: 'queued' },
      { id: 'row t2', lane: 't2', label: 't2 of in', state: 'refused', problem: { message: 't2 is in already.' } },
      { id: 'row t3', lane: 't3', state: 'refused', body: { rows: [row('t3')] } },
    ])
    expect(news.flatMap((one) => (one.kind === 'refused' ? [one.id] : []))).toEqual(['in'])
    await outbox.takeOut('row t2')
    answer = () => Promise.resolve({})
    await outbox.sendAll('mo')
    expect([...kept.keys()]).toEqual(['row t3'])
    await outbox.sendAgain('row t3')
    await outbox.sendAll('mo')
    expect(bodies.at(-1)).toEqual({ rows: [row('t3')] })
    expect(kept.size).toBe(0)
  })

  test('that was refused as a whole stays whole, and holds all of it', async () => {
    const outbox = open()
    await outbox.put(person, load('in', 't1', 't2'))
    await outbox.put(person, reading('after', 't2'))
    answer = () => Promise.reject(new ApiProblem('invalid-input', 400, 'This is no number.', ''))
    await outbox.sendAll('mo')
    expect([...kept.values()]).toMatchObject([{ id: 'in', state: 'refused' }, { id: 'after' }])
    expect(sent).toEqual(['in'])
  })
})

describe('two tabs that both send', () => {
  /** The other tab does this while the first one's request is under way. */
  const meanwhile = async (act: () => Promise<void>, outcome: Promise<unknown>) => {
    const outbox = open()
    await outbox.put(person, reading('a', 't1'))
    await outbox.put(person, reading('b', 't1'))
    answer = async ({ id }) => {
      if (id === 'a') await act()
      return outcome
    }
    await outbox.sendAll('mo')
  }
  const no = (status: number) => {
    const refusal = Promise.reject(new ApiProblem('x', status, 'No', ''))
    refusal.catch(() => undefined)
    return refusal
  }

  test.each([0, 409])('what one took out does not come back when the other hears %i', async (status) => {
    await meanwhile(() => open().takeOut('a'), no(status))
    expect(kept.has('a')).toBe(false)
    expect(news).not.toContainEqual(expect.objectContaining({ kind: 'refused', id: 'a' }))
  })

  test('what one has stored is not sent again by the other, which looks anew at what stands behind it', async () => {
    const outbox = open()
    await outbox.put(person, reading('a', 't1'))
    await outbox.put(person, reading('b', 't1'))
    const store = memoryStore(kept)
    const late = createOutbox({
      store: {
        ...store,
        all: async () => {
          const all = await store.all()
          kept.delete('a')
          return all
        },
      },
      send: ({ id }) => Promise.resolve(sent.push(id)),
      now: () => new Date('2026-03-05T14:32:00Z'),
      tell: () => undefined,
    })
    expect(await late.sendAll('mo')).toBe(0)
    expect(sent).toEqual([])
    await late.sendAll('mo')
    expect(sent).toEqual(['b'])
  })

  test('sending again what the other took out brings nothing back', async () => {
    const outbox = open()
    await outbox.put(person, reading('a', 't1'))
    await outbox.takeOut('a')
    await outbox.sendAgain('a')
    expect(kept.size).toBe(0)
  })
})
