import type { Reading } from '@curebook/contract/bench'
import { describe, expect, test } from 'vitest'
import { readingsIn, type ReadingSlot } from './reading-slots.ts'
import { entryOf, type Entry } from './reading-entry.ts'
import { undoableAt, undoneIds, withUndone } from './undo.ts'
import { entryFor } from './use-readings.ts'

const entered = Date.parse('2026-03-05T10:00:00Z')
const place = { stepKey: 'weigh', key: 'mass', repeat: 1 }
const reading = (more: Partial<Entry> = {}): Entry => ({
  id: 'r1',
  testId: 't1',
  slot: place,
  corrects: undefined,
  undoes: undefined,
  typed: '8124',
  label: 'Mass of 10-3 (7KD2): 8124',
  at: undefined,
  enteredAt: entered,
  state: 'stored',
  tries: 0,
  problem: undefined,
  answer: undefined,
  ...more,
})
const undo = (more: Partial<Entry> = {}): Entry =>
  reading({ id: 'u1', slot: undefined, undoes: 'r1', state: 'queued', ...more })

describe('what can be taken back', () => {
  test.each([
    [0, true],
    [9_999, true],
    [10_000, false],
  ])('%i ms after Enter: %s', (after, can) => {
    expect(undoableAt([reading()], entered + after)?.entry.id).toBe(can ? 'r1' : undefined)
  })
  test('says until when, so that the button goes by itself', () => {
    expect(undoableAt([reading()], entered)?.until).toBe(entered + 10_000)
  })
  test.each(['queued', 'sending', 'stored'] as const)('a reading that is %s', (state) => {
    expect(undoableAt([reading({ state })], entered)).toBeDefined()
  })
  test('neither a refused one, nor a correction, nor what was taken back, nor what came before another', () => {
    const later = reading({ id: 'r2' })
    expect(undoableAt([], entered)).toBeUndefined()
    expect(undoableAt([reading({ state: 'refused' })], entered)).toBeUndefined()
    expect(undoableAt([reading({ corrects: 'r0' })], entered)).toBeUndefined()
    expect(undoableAt([reading(), undo()], entered)).toBeUndefined()
    expect(undoableAt([reading(), later], entered)?.entry.id).toBe('r2')
  })
})

describe('what was taken back', () => {
  const typed: Reading = {
    id: 'r1',
    testId: 't1',
    ...place,
    typed: '8124',
    superseded: false,
    supersedes: null,
  } as Reading
  const slot = { stepKey: 'weigh', declaration: { key: 'mass' }, repeat: 1 } as ReadingSlot
  const by = { membershipId: 'm', name: 'Ada', initials: 'A' }
  const taken = { by, at: '2026-03-05T10:00:05Z', reason: 'Mistyped' }

  test('leaves its slot open at once, while it is still on this device', () => {
    const entries = [reading({ state: 'queued' }), undo()]
    expect(entryFor(entries, 't1', place, undefined)).toBeUndefined()
    expect(entryFor([...entries, reading({ id: 'r2', typed: '812.4' })], 't1', place, undefined)?.typed).toBe('812.4')
  })
  test('stands struck through in the record before the server says so', () => {
    const shown = withUndone([typed], undoneIds([undo()]), taken)
    expect(readingsIn(slot, shown)).toMatchObject({ current: undefined, earlier: [{ id: 'r1', withdrawn: taken }] })
    expect(withUndone([typed], undoneIds([]), taken)).toEqual([typed])
  })
  test('stands behind the one in its place, with who and why', () => {
    const next = { ...typed, id: 'r2', typed: '812.4', supersedes: { id: 'r1', typed: '8124', by, reason: 'Mistyped' } }
    const found = readingsIn(slot, [{ ...typed, superseded: true, withdrawn: taken }, next])
    expect([found.current?.id, found.earlier.map(({ id }) => id)]).toEqual(['r2', ['r1']])
  })
  test('a second one taken back shows both, newest first', () => {
    const second: Reading = {
      ...typed,
      id: 'r2',
      superseded: true,
      withdrawn: taken,
      supersedes: { id: 'r1', typed: '8124', by, reason: 'Mistyped' },
    }
    const found = readingsIn(slot, [{ ...typed, superseded: true, withdrawn: taken }, second])
    expect([found.current, found.earlier.map(({ id }) => id)]).toEqual([undefined, ['r2', 'r1']])
  })
  test('stands after all where the server refused it, or refused the reading itself', () => {
    expect(undoneIds([reading(), undo({ state: 'refused' })]).size).toBe(0)
    expect(undoneIds([reading({ state: 'refused' }), undo()]).size).toBe(0)
  })
  test('is read again from the device after a reload', () => {
    const waiting = {
      id: 'u1',
      lane: 't1',
      path: '/api/labs/l/readings/r1/withdrawal',
      body: { id: 'u1' },
      queuedAt: '2026-03-05T10:00:05Z',
      state: 'queued',
      attempts: 0,
    } as unknown as Parameters<typeof entryOf>[0]
    expect(entryOf(waiting)).toMatchObject({ undoes: 'r1', testId: 't1', slot: undefined, enteredAt: entered + 5_000 })
  })
})
