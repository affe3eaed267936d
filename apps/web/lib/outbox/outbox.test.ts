import { beforeEach, describe, expect, test } from 'vitest'
import { ApiProblem } from '../api-problem.ts'
import type { NewOutboxEntry, OutboxEntry } from './outbox-entry.ts'
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
let news: OutboxNews[]
let answer: (entry: OutboxEntry) => Promise<unknown>

beforeEach(() => {
  kept = new Map()
  sent = []
  news = []
  answer = () => Promise.resolve({ ok: true })
})

/** A second call on the same `kept` is the page after a reload. */
function open() {
  return createOutbox({
    store: {
      all: () => Promise.resolve([...kept.values()].sort((a, b) => a.order - b.order)),
      put: (entry) => Promise.resolve(void kept.set(entry.id, entry)),
      remove: (id) => Promise.resolve(void kept.delete(id)),
    },
    send: (entry) => {
      expect(kept.has(entry.id), 'is on the device while it is sent').toBe(true)
      sent.push(entry.id)
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
    expect(news).toContainEqual({ kind: 'refused', id: 'a', topics: ['bench'] })
    await outbox.takeOut('a')
    await outbox.sendAll('mo')
    expect(kept.size).toBe(0)
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
