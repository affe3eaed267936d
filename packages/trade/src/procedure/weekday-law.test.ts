import { expect, test } from 'vitest'
import { loadedWheelSandAdhesion } from '../methods/loaded-wheel-sand-adhesion.ts'
import { wetTrackAbrasion1h, wetTrackAbrasion6d } from '../methods/wet-track-abrasion.ts'
import type { MethodDeclaration } from './declaration.ts'
import { closedAmong, neededDaysOf, nextStartDay, startWeekdays, weekdayRuns } from './weekday-law.ts'

const weekend = { weekdays: [6, 7], dates: [] }
const needed = (method: MethodDeclaration, from?: string) => neededDaysOf(method, method.editions[0]!.parameters, from)

test('the days that a method needs follow from its waits', () => {
  const offsets = (method: MethodDeclaration) => needed(method).map(({ offset, step }) => [offset, step])
  expect(offsets(wetTrackAbrasion1h)).toEqual([
    [0, 'cast'],
    [1, 'cure'],
    [2, 'dry-back'],
  ])
  expect(offsets(wetTrackAbrasion6d)).toEqual([
    [0, 'cast'],
    [1, 'cure'],
    [7, 'abrade'],
    [8, 'dry-back'],
  ])
  expect(offsets(loadedWheelSandAdhesion)).toEqual([
    [0, 'cast'],
    [1, 'cure'],
  ])
})

test('closed on Saturday and Sunday: cast 1-hour discs Mon–Wed, 6-day discs Mon–Thu', () => {
  expect(weekdayRuns(startWeekdays(needed(wetTrackAbrasion1h), weekend))).toEqual([[1, 3]])
  expect(weekdayRuns(startWeekdays(needed(wetTrackAbrasion6d), weekend))).toEqual([[1, 4]])
})

test('a 6-day soak does not begin on a Sunday or Monday, and a 1-hour day is no Friday', () => {
  const soak = (method: MethodDeclaration, day: string) =>
    closedAmong(day, needed(method, 'soak'), weekend).map(({ step, day: on }) => [step, on])
  // 2026-03-08 is a Sunday.
  expect(soak(wetTrackAbrasion6d, '2026-03-08')).toEqual([
    ['soak', '2026-03-08'],
    ['abrade', '2026-03-14'],
    ['dry-back', '2026-03-15'],
  ])
  expect(soak(wetTrackAbrasion6d, '2026-03-09')).toEqual([['abrade', '2026-03-15']])
  expect(soak(wetTrackAbrasion6d, '2026-03-10')).toEqual([])
  expect(soak(wetTrackAbrasion1h, '2026-03-06')).toEqual([['dry-back', '2026-03-07']])
  expect(soak(wetTrackAbrasion1h, '2026-03-05')).toEqual([])
})

test('a single closed date counts as well, and the next day that does is found', () => {
  const withGoodFriday = { weekdays: [6, 7], dates: ['2026-04-03', '2026-04-06'] }
  const days = needed(wetTrackAbrasion1h)
  expect(closedAmong('2026-04-01', days, withGoodFriday).map(({ day }) => day)).toEqual(['2026-04-03'])
  expect(nextStartDay('2026-04-01', days, withGoodFriday)).toBe('2026-04-07')
  expect(nextStartDay('2026-03-02', days, withGoodFriday)).toBe('2026-03-02')
  expect(nextStartDay('2026-03-02', days, { weekdays: [1, 2, 3, 4, 5, 6, 7], dates: [] })).toBeNull()
})

test('weekdays are told as runs', () => {
  expect(weekdayRuns([1, 2, 3, 5])).toEqual([
    [1, 3],
    [5, 5],
  ])
  expect(weekdayRuns([])).toEqual([])
})
