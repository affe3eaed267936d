import { describe, expect, it } from 'vitest'
import {
  fitting,
  fittingClosing,
  lastWorkOf,
  lateShownMs,
  nextMs,
  type RecordedAct,
  shareLeft,
  soonMs,
  windowsAt,
} from './wall.ts'

const now = Date.parse('2026-03-05T14:00:00Z')
const at = (ms: number) => new Date(now + ms).toISOString()
const minute = 60_000
const row = (code: string, opens: number | null, closes: number | null) => ({
  code,
  opensAt: opens === null ? null : at(opens),
  closesAt: closes === null ? null : at(closes),
})
const codes = (rows: readonly { code: string }[]) => rows.map(({ code }) => code)

describe('the windows of the wall', () => {
  it('are late, closing or opening, each in the order in which it matters', () => {
    const { late, soon, next } = windowsAt(
      [
        row('opens-last', 90 * minute, 120 * minute),
        row('closes-last', -60 * minute, 40 * minute),
        row('late-long', -300 * minute, -200 * minute),
        row('opens-first', 5 * minute, null),
        row('closes-first', null, 3 * minute),
        row('late-just', -60 * minute, -minute),
      ],
      now,
    )
    expect(codes(late)).toEqual(['late-just', 'late-long'])
    expect(codes(soon)).toEqual(['closes-first', 'closes-last'])
    expect(codes(next)).toEqual(['opens-first', 'opens-last'])
  })

  it('leave out what nothing bounds, what closes in days, opens in days, or was missed long ago', () => {
    const rows = [
      row('any-time', null, null),
      row('open-ended', -minute, null),
      row('in-days', -minute, soonMs + 1),
      row('opens-in-days', nextMs + 1, null),
      row('missed-long-ago', null, -lateShownMs - 1),
    ]
    expect(windowsAt(rows, now)).toEqual({ late: [], soon: [], next: [] })
  })

  it('keep both ends of a bound, and belong to the window at the very moment of its ends', () => {
    const rows = [
      row('closes-now', -minute, 0),
      row('opens-now', 0, minute),
      row('a-shift', null, soonMs),
      row('a-day', nextMs, null),
      row('late-a-day', null, -lateShownMs),
    ]
    const { late, soon, next } = windowsAt(rows, now)
    expect([codes(late), codes(soon), codes(next)]).toEqual([
      ['late-a-day'],
      ['closes-now', 'opens-now', 'a-shift'],
      ['a-day'],
    ])
  })

  it('move on by the clock alone', () => {
    const rows = [row('it', 10 * minute, 20 * minute)]
    const where = (minutes: number) =>
      Object.entries(windowsAt(rows, now + minutes * minute)).find(([, found]) => found.length > 0)?.[0]
    expect([0, 10, 20, 21].map(where)).toEqual(['next', 'soon', 'soon', 'late'])
  })

  it('have a share left, none without two ends', () => {
    expect(shareLeft(row('', -30 * minute, 10 * minute), now)).toBe(0.25)
    expect(shareLeft(row('', 5 * minute, 10 * minute), now)).toBe(1)
    expect(shareLeft(row('', -10 * minute, -5 * minute), now)).toBe(0)
    expect(shareLeft(row('', null, 5 * minute), now)).toBeNull()
    expect(shareLeft(row('', 0, 0), now)).toBeNull()
  })
})

describe('what fits', () => {
  const many = (name: string, count: number) => Array.from({ length: count }, (_, index) => `${name}${index + 1}`)

  it('is the beginning, and the rest is counted', () => {
    expect(fitting(many('a', 6), 4)).toEqual({ rows: ['a1', 'a2', 'a3', 'a4'], more: 2 })
    expect(fitting(many('a', 4), 4).more).toBe(0)
    expect(fitting([], 4)).toEqual({ rows: [], more: 0 })
  })

  it('of late and closing ones is late first, yet what still closes keeps half of the places', () => {
    expect(fittingClosing({ late: many('l', 2), soon: many('s', 6) }, 5)).toEqual({
      rows: ['l1', 'l2', 's1', 's2', 's3'],
      more: 3,
      moreLate: 0,
    })
    expect(fittingClosing({ late: many('l', 9), soon: many('s', 6) }, 5)).toEqual({
      rows: ['l1', 'l2', 'l3', 's1', 's2'],
      more: 10,
      moreLate: 6,
    })
    expect(fittingClosing({ late: many('l', 9), soon: many('s', 1) }, 5)).toEqual({
      rows: ['l1', 'l2', 'l3', 'l4', 's1'],
      more: 5,
      moreLate: 5,
    })
    expect(fittingClosing({ late: many('l', 9), soon: [] }, 5).rows).toEqual(['l1', 'l2', 'l3', 'l4', 'l5'])
  })
})

describe('who does what', () => {
  const act = (personId: string, minutes: number, stepKey: string, place: string | null = null): RecordedAct => ({
    personId,
    methodKey: 'abrasion',
    stepKey,
    place,
    at: at(minutes * minute),
  })

  it('is the last step of each, since the first of its records in a row, whoever was last first', () => {
    const acts = [
      act('ana', -10, 'weigh', 'B-1'),
      act('ben', -5, 'cast'),
      act('ana', -40, 'weigh'),
      act('ana', -60, 'cast'),
      act('ana', -90, 'weigh'),
    ]
    expect(lastWorkOf(acts).map(({ personId, stepKey, since }) => [personId, stepKey, since])).toEqual([
      ['ben', 'cast', at(-5 * minute)],
      ['ana', 'weigh', at(-40 * minute)],
    ])
  })

  it('keeps the place of the same step, and takes none over from another', () => {
    expect(lastWorkOf([act('ana', -9, 'weigh', 'B-1'), act('ana', -8, 'weigh')])[0]!.place).toBe('B-1')
    expect(lastWorkOf([act('ana', -9, 'weigh', 'B-1'), act('ana', -8, 'cast')])[0]!.place).toBeNull()
  })

  it('tells the same step of two methods apart', () => {
    const other = { ...act('ana', -8, 'weigh'), methodKey: 'adhesion' }
    expect(lastWorkOf([act('ana', -9, 'weigh'), other])[0]!.since).toBe(at(-8 * minute))
  })
})
