import { dayAfter, isClosedDay, weekdayOf, type ClosedDays } from './closed-days.ts'
import type { EditionParameters, MethodDeclaration } from './declaration.ts'
import { durationOf } from './windows.ts'

/** A day on which somebody must be there: so many days after the first act, to do this step. */
export type NeededDay = { readonly offset: number; readonly step: string; readonly title: string }

/** What waits at least so long is done on another day: started in the morning, it would end at night; common practice, no source. */
const overnightMs = 12 * 3_600_000
/** Milliseconds of a day, exactly. */
const dayMs = 24 * 3_600_000

/**
 * The days that a method needs people on, counted from the day of its first act, or from the day of the step `from`. Each
 * wait of an edition that lasts over night moves everything after it; shorter ones are of the same day.
 * @throws EditionError when the edition lacks a duration that a window names
 */
export function neededDaysOf(
  { steps, windows }: Pick<MethodDeclaration, 'steps' | 'windows'>,
  parameters: EditionParameters,
  from = steps[0]?.key,
): readonly NeededDay[] {
  const placeOf = (key: string | undefined) => steps.findIndex((step) => step.key === key)
  const titleOf = (key: string) => steps.find((step) => step.key === key)?.title ?? key
  const first = steps[Math.max(0, placeOf(from))]
  if (first === undefined) return []
  const days: NeededDay[] = [{ offset: 0, step: first.key, title: first.title }]
  let offset = 0
  for (const { step, after, earliestParameter, optional } of windows) {
    if (optional || earliestParameter === undefined || placeOf(after.step) < placeOf(from)) continue
    const wait = durationOf(parameters, earliestParameter)
    if (wait < overnightMs) continue
    offset += Math.ceil(wait / dayMs)
    days.push({ offset, step, title: titleOf(step) })
  }
  return days
}

/** Which of the needed days fall on closed ones when the first act is on `day`. */
export function closedAmong(
  day: string,
  needed: readonly NeededDay[],
  closed: ClosedDays,
): readonly (NeededDay & { readonly day: string })[] {
  return needed
    .map((need) => ({ ...need, day: dayAfter(day, need.offset) }))
    .filter((need) => isClosedDay(need.day, closed))
}

/** Weekdays (1 Monday … 7 Sunday) on which the first act can be, single closed dates left aside. */
export function startWeekdays(needed: readonly NeededDay[], closed: ClosedDays): readonly number[] {
  const monday = '2026-01-05'
  const weekdays = { weekdays: closed.weekdays, dates: [] }
  // Seven days a week, by definition.
  return Array.from({ length: 7 }, (_, index) => dayAfter(monday, index))
    .filter((day) => closedAmong(day, needed, weekdays).length === 0)
    .map(weekdayOf)
}

/** The first day from `day` on, itself included, with none of the needed days closed; null within a year: there is none. */
export function nextStartDay(day: string, needed: readonly NeededDay[], closed: ClosedDays): string | null {
  // Every day of a leap year, by definition.
  for (let later = 0; later < 366; later += 1) {
    const start = dayAfter(day, later)
    if (closedAmong(start, needed, closed).length === 0) return start
  }
  return null
}

/** Weekdays as runs: [1, 2, 3, 5] is [[1, 3], [5, 5]]. */
export function weekdayRuns(weekdays: readonly number[]): readonly (readonly [number, number])[] {
  const runs: [number, number][] = []
  for (const weekday of weekdays.toSorted((a, b) => a - b)) {
    const last = runs.at(-1)
    if (last !== undefined && last[1] === weekday - 1) last[1] = weekday
    else runs.push([weekday, weekday])
  }
  return runs
}
