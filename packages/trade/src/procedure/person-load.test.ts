import { expect, test } from 'vitest'
import {
  crowdingOf,
  hoursAndMinutes,
  loadByDay,
  overlaps,
  roundsOf,
  shiftMinutes,
  type LoadAct,
} from './person-load.ts'

const now = '2026-03-05T10:20:00Z'
const at = (clock: string, day = 5) => `2026-03-0${day}T${clock}:00Z`
const act = (changes: Partial<LoadAct>): LoadAct => ({
  label: '10-1',
  form: 'disc',
  methodKey: 'wet-track-abrasion-1h',
  stepKey: 'abrade',
  stepTitle: 'Abrade',
  act: 'start',
  opensAt: null,
  closesAt: null,
  ...changes,
})
const day = (iso: string) => iso.slice(0, 10)

test('hands-on minutes stand on the day by which the act must be done, late ones today', () => {
  const load = loadByDay(
    [
      act({ closesAt: at('10:00', 4) }),
      act({ closesAt: at('11:35') }),
      act({ stepKey: 'weigh-before', act: 'reading', closesAt: at('10:00', 6) }),
      act({ stepKey: 'weigh-before', act: 'reading', closesAt: at('10:00', 6) }),
      act({ stepKey: 'cure', act: 'start', closesAt: at('11:00', 6) }),
      act({ form: 'strip', stepKey: 'weigh-components', act: 'reading' }),
      act({ opensAt: at('08:00', 6) }),
      act({ opensAt: at('08:00', 4) }),
      act({ stepKey: null, act: null }),
    ],
    now,
    day,
  )
  expect(load.get('2026-03-05')).toEqual({ minutes: 45, windows: 1 })
  expect(load.get('2026-03-06')).toEqual({ minutes: 18, windows: 2 })
  expect(load.get(null)).toEqual({ minutes: 8, windows: 0 })
})

test('rounds of two steps overlap, of one step they are a queue', () => {
  const [one, other, weigh] = roundsOf(
    [
      act({ opensAt: at('11:20'), closesAt: at('11:35') }),
      act({ opensAt: at('11:21'), closesAt: at('11:36') }),
      act({ stepKey: 'weigh-after', opensAt: at('11:30'), closesAt: at('12:00') }),
    ],
    Date.parse(now),
  )
  expect([overlaps(one!, other!), overlaps(one!, weigh!)]).toEqual([false, true])
})

test('discs put in a quarter of an hour apart can be run by one person; all at once they cannot', () => {
  const run = (minute: number) =>
    act({
      opensAt: new Date(Date.parse(at('11:20')) + minute * 60_000).toISOString(),
      closesAt: new Date(Date.parse(at('11:35')) + minute * 60_000).toISOString(),
    })
  const staggered = Array.from({ length: 15 }, (_, index) => run(index * 15))
  expect(crowdingOf(staggered, Date.parse(now))).toBeNull()
  // Two may start in a quarter of an hour: the second at its end.
  expect(crowdingOf([run(0), run(0)], Date.parse(now))).toBeNull()
  const atOnce = Array.from({ length: 3 }, () => run(0))
  expect(crowdingOf(atOnce, Date.parse(now))).toMatchObject({
    from: Date.parse(at('11:20')),
    to: Date.parse(at('11:35')),
    minutes: 45,
  })
})

test('what a window has room for is no crowding, whatever else overlaps it', () => {
  const wide = act({ form: 'strip', stepKey: 'condition', closesAt: at('16:00') })
  const run = act({ opensAt: at('11:20'), closesAt: at('11:35') })
  expect(crowdingOf([wide, run], Date.parse(now))).toBeNull()
  const late = act({ opensAt: at('09:00'), closesAt: at('09:10') })
  expect(crowdingOf([late, run], Date.parse(now))).toBeNull()
  const weighing = act({ stepKey: 'weigh-after', act: 'reading', opensAt: at('11:20'), closesAt: at('11:21') })
  const tight = act({ form: 'strip', stepKey: 'condition', opensAt: at('11:20'), closesAt: at('11:30') })
  expect(crowdingOf([weighing], Date.parse(now))).toMatchObject({
    from: Date.parse(at('11:20')),
    to: Date.parse(at('11:21')),
    minutes: 1.5,
  })
  expect(crowdingOf([tight, run], Date.parse(now))).toBeNull()
  const strips = [tight, tight]
  expect(crowdingOf([...strips, run], Date.parse(now))).toMatchObject({ to: Date.parse(at('11:35')), minutes: 73 })
})

test('a shift may end after midnight, and the longest is what one person works', () => {
  expect(
    shiftMinutes([
      { from: '07:30', to: '16:00' },
      { from: '22:00', to: '05:30' },
    ]),
  ).toBe(510)
  expect(hoursAndMinutes(510.9)).toBe('8:30')
})
