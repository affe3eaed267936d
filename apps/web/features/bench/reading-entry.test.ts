import { describe, expect, test } from 'vitest'
import type { OutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { conflictOf, entryOf, savingOfEntries, type Entry } from './reading-entry.ts'

const waiting: OutboxEntry = {
  id: 'r1',
  lane: 't1',
  path: '/api/labs/l/tests/t1/readings',
  body: { stepKey: 'weigh', key: 'mass', repeat: 1, typed: '812,4' },
  label: 'Mass of 10-3 (7KD2): 812,4',
  topics: [],
  labId: 'l',
  membershipId: 'm',
  personName: '',
  queuedAt: '',
  order: 1,
  attempts: 0,
  state: 'queued',
}
const entry = (more: Partial<Entry>): Entry => ({ ...entryOf(waiting)!, ...more })

describe('a reading on its way', () => {
  test('it is read from the outbox as it was typed, so a reload shows it again', () => {
    expect(entryOf(waiting)).toMatchObject({
      id: 'r1',
      testId: 't1',
      slot: { stepKey: 'weigh', key: 'mass', repeat: 1 },
      typed: '812,4',
      label: 'Mass of 10-3 (7KD2): 812,4',
      state: 'queued',
      tries: 0,
    })
    expect(
      entryOf({ ...waiting, path: '/api/labs/l/readings/r0/corrections', body: { typed: '812.4' } }),
    ).toMatchObject({ corrects: 'r0', slot: undefined })
    expect(entryOf({ ...waiting, path: '/api/labs/l/other' })).toBeUndefined()
  })
  test('its first sending is “saving”; only one sent in vain, or no network, is “waiting”', () => {
    expect(savingOfEntries([entry({})], true)).toEqual({ state: 'saving' })
    expect(savingOfEntries([entryOf({ ...waiting, state: 'sending', attempts: 1 })!], true)).toEqual({
      state: 'saving',
    })
    expect(savingOfEntries([entry({ tries: 1 }), entry({})], true)).toEqual({ state: 'waiting', count: 2 })
    expect(savingOfEntries([entry({})], false)).toEqual({ state: 'waiting', count: 1 })
  })
  test('a refusal is said before anything else, and “saved” has the server’s time', () => {
    const answer = { reading: { receivedAt: '2026-03-05T14:32:00Z' } } as Entry['answer']
    const problem = { code: 'invalid-input', status: 400, message: 'Mass must be a number', errors: [], extra: {} }
    expect(savingOfEntries([entry({ state: 'refused', problem }), entry({ state: 'stored', answer })], true)).toEqual({
      state: 'refused',
      reason: 'Mass must be a number',
    })
    expect(savingOfEntries([entry({ state: 'stored', answer })], true)).toEqual({
      state: 'saved',
      at: '2026-03-05T14:32:00Z',
    })
    expect(savingOfEntries([], true)).toEqual({ state: 'idle' })
  })
  test('of a slot that was taken, the reading that stands there is known', () => {
    const problem = {
      code: 'conflict',
      status: 409,
      message: '',
      errors: [],
      extra: { stored: { id: 'r9', typed: '741.2' } },
    }
    expect(conflictOf(problem)?.id).toBe('r9')
    expect(conflictOf({ ...problem, code: 'invalid-input' })).toBeUndefined()
    expect(conflictOf({ ...problem, extra: {} })).toBeUndefined()
  })
})
