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
  holdsAnything,
  isRunning,
  isStoredAs,
  nextDraft,
  recipeOf,
  start,
  takeBack,
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
  consistency: 'creamy',
  broke: null,
  startedAt: '2026-03-03T13:20:00.000Z',
  remark: '',
  meets: null,
  by: { membershipId: id, name: 'B. Person', initials: 'BP' },
  at: '2026-03-03T13:30:00.000Z',
  supersedes: null,
}

describe('the stopwatch', () => {
  test('runs from emulsion to break and writes whole seconds', () => {
    const running = start(emptyDraft(id), 1_000, 0)
    expect([isRunning(running), clockOf(running, 62_500)]).toEqual([true, '1:01'])
    const broken = breakAt(running, 173_900)
    expect([isRunning(broken), broken.mixTime, clockOf(broken, 999_999)]).toEqual([false, '172', '2:52'])
    expect(bodyOf(broken)).toMatchObject({ mixTimeFrom: 'stopwatch', startedAt: '1970-01-01T00:00:01.000Z' })
  })
  test('it shows and writes the same second, to the last thousandth', () => {
    const running = start(emptyDraft(id), 0, 0)
    for (const until of [400, 500, 999, 1_000, 59_999, 172_500, 172_999]) {
      const [minutes, seconds] = clockOf(running, until).split(':').map(Number)
      expect(breakAt(running, until).mixTime).toBe(String(minutes! * 60 + seconds!))
    }
  })
  test('a second tap right after the break starts nothing, and a start keeps the time before until it breaks', () => {
    const broken = breakAt(start(emptyDraft(id), 0, 0), 172_000)
    expect(start(broken, 172_300, 0)).toBe(broken)
    const again = start(broken, 200_000, 0)
    expect(again).toMatchObject({ mixTime: '172', timed: '172', started: 200_000, stopped: null })
    expect(start(again, 200_200, 0)).toBe(again)
    expect(takeBack(again)).toEqual(broken)
    expect(breakAt(again, 350_000)).toMatchObject({ mixTime: '150', earlier: null })
    expect(takeBack(broken)).toBe(broken)
  })
  test('typed over, the time is a typed one; without a start nothing breaks', () => {
    const broken = breakAt(start(emptyDraft(id), 0, 0), 172_000)
    expect(bodyOf({ ...broken, mixTime: '170' }).mixTimeFrom).toBe('typed')
    expect(breakAt(emptyDraft(id), 5_000)).toEqual(emptyDraft(id))
    expect(clockOf(emptyDraft(id), 5_000)).toBe('0:00')
  })
  test('times are told by the server’s clock as it stood at the start, and stay so however often the cup is sent', () => {
    const draft = start(emptyDraft(id), 10_000, -4_000)
    expect(draft.startedAt).toBe('1970-01-01T00:00:06.000Z')
    const kept = draftFrom(JSON.stringify(draft))!
    expect([bodyOf(draft), bodyOf(kept)]).toEqual([bodyOf(draft), bodyOf(draft)])
    const { startedAt: _, earlier: __, ...older } = draft
    expect(draftFrom(JSON.stringify(older))).toMatchObject({ startedAt: '1970-01-01T00:00:10.000Z', earlier: null })
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
  test('the next row begins with the recipe of the cup before, which is nothing to lose', () => {
    const next = nextDraft(id, recipeOf(cup))
    expect(next).toMatchObject({
      emulsion: '12',
      water: '10',
      additive: '0.2',
      filler: '0',
      temperature: '',
      mixTime: '',
    })
    expect([next, { ...next, water: '11' }].map((draft) => holdsAnything(draft, recipeOf(cup)))).toEqual([false, true])
    expect(nextDraft(id, recipeOf(undefined))).toEqual(emptyDraft(id))
  })
  test('a stored cup opened again is the same, and what is sent is what the contract asks for', () => {
    const draft = draftOf(cup, id)
    const sent = EnterTrialCupSchema.parse(bodyOf(draft, { id: cup.id, reason: '' }))
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
    expect(changesRead(cup, { ...draft, broke: 'sudden' })).toBe(false)
    expect(changesRead(cup, { ...draft, consistency: 'stiff' })).toBe(true)
  })
  test('a draft whose answer was lost is known by what is stored; another one is not taken for it', () => {
    const draft = draftOf(cup, id)
    expect(isStoredAs(cup, { ...draft, filler: '', remark: ' ' })).toBe(true)
    expect(isStoredAs(cup, { ...draft, mixTime: '171' })).toBe(false)
    expect(isStoredAs({ ...cup, remark: 'creamy' }, draft)).toBe(false)
    expect(isStoredAs({ ...cup, broke: 'lumps' }, draft)).toBe(false)
    expect([emptyDraft(id), start(emptyDraft(id), 1, 0), draft].map((one) => holdsAnything(one))).toEqual([
      false,
      true,
      true,
    ])
  })
  test('what was typed is found again on the device, and nothing else is taken for it', () => {
    const draft = { ...emptyDraft(id), emulsion: '12' }
    expect(draftFrom(JSON.stringify(draft))).toEqual(draft)
    const { consistency: _, broke: __, ...before } = draft
    expect(draftFrom(JSON.stringify(before))).toEqual(draft)
    expect(draftFrom(JSON.stringify({ ...draft, broke: 'exploded' }))).toBeUndefined()
    for (const kept of [null, '', '{', '7', '{"id":"x"}']) expect(draftFrom(kept)).toBeUndefined()
  })
})
