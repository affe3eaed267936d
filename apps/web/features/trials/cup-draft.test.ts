import { EnterTrialCupSchema, type TrialCup } from '@curebook/contract/trials'
import { describe, expect, test } from 'vitest'
import {
  bodyOf,
  breakAt,
  changesRead,
  clockOf,
  copyLast,
  draftFrom,
  draftOf,
  emptyDraft,
  isRunning,
  start,
} from './cup-draft.ts'

const id = '01920000-0000-7000-8000-000000000001'
const value = (typed: string) => ({ typed, value: typed })
const cup: TrialCup = {
  id: `${id.slice(0, -1)}2`,
  number: 3,
  emulsion: value('12'),
  water: value('10'),
  additive: value('0.2'),
  filler: value('0'),
  temperature: value('25.1'),
  mixTime: value('172'),
  mixTimeFrom: 'stopwatch',
  coated: null,
  clearWater: null,
  startedAt: '2026-03-03T13:20:00.000Z',
  remark: '',
  meets: null,
  by: { membershipId: id, name: 'B. Person', initials: 'BP' },
  at: '2026-03-03T13:30:00.000Z',
  supersedes: null,
}

describe('the stopwatch', () => {
  test('runs from emulsion to break and writes whole seconds', () => {
    const running = start(emptyDraft(id), 1_000)
    expect([isRunning(running), clockOf(running, 62_500)]).toEqual([true, '1:01'])
    const broken = breakAt(running, 173_400)
    expect([isRunning(broken), broken.mixTime, clockOf(broken, 999_999)]).toEqual([false, '172', '2:52'])
    expect(bodyOf(broken, 0)).toMatchObject({ mixTimeFrom: 'stopwatch', startedAt: '1970-01-01T00:00:01.000Z' })
    // Started again, the time of the first run is gone.
    expect(start(broken, 200_000)).toMatchObject({ mixTime: '', stopped: null })
  })
  test('typed over, the time is a typed one; without a start nothing breaks', () => {
    const broken = breakAt(start(emptyDraft(id), 0), 172_000)
    expect(bodyOf({ ...broken, mixTime: '170' }, 0).mixTimeFrom).toBe('typed')
    expect(breakAt(emptyDraft(id), 5_000)).toEqual(emptyDraft(id))
    expect(clockOf(emptyDraft(id), 5_000)).toBe('0:00')
  })
  test('times are told by the server’s clock', () => {
    expect(bodyOf(start(emptyDraft(id), 10_000), -4_000).startedAt).toBe('1970-01-01T00:00:06.000Z')
  })
})

describe('rows', () => {
  test('one key copies the recipe of the last cup, and nothing that was read', () => {
    expect(copyLast(emptyDraft(id), cup)).toMatchObject({
      emulsion: '12',
      water: '10',
      additive: '0.2',
      filler: '0',
      temperature: '25.1',
      mixTime: '',
      remark: '',
    })
    expect(copyLast(emptyDraft(id), undefined)).toEqual(emptyDraft(id))
  })
  test('a stored cup opened again is the same, and what is sent is what the contract asks for', () => {
    const draft = draftOf(cup, id)
    const sent = EnterTrialCupSchema.parse(bodyOf(draft, 0, { id: cup.id, reason: '' }))
    expect(sent).toMatchObject({
      emulsion: '12',
      mixTime: '172',
      mixTimeFrom: 'stopwatch',
      coated: '',
      startedAt: cup.startedAt,
    })
  })
  test('completing asks for no reason, changing or taking away what was read does', () => {
    const draft = draftOf(cup, id)
    expect(changesRead(cup, { ...draft, coated: '100', remark: 'creamy', filler: '' })).toBe(false)
    expect(changesRead(cup, { ...draft, mixTime: '171' })).toBe(true)
    expect(changesRead(cup, { ...draft, temperature: '' })).toBe(true)
    expect(changesRead({ ...cup, remark: 'short' }, draft)).toBe(true)
  })
  test('what was typed is found again on the device, and nothing else is taken for it', () => {
    const draft = { ...emptyDraft(id), emulsion: '12' }
    expect(draftFrom(JSON.stringify(draft))).toEqual(draft)
    for (const kept of [null, '', '{', '7', '{"id":"x"}']) expect(draftFrom(kept)).toBeUndefined()
  })
})
