import type { ItemForm } from './declaration.ts'
import { personMinutesOf } from './person-minutes.ts'

/** The next act of a test as a planner sees it; times ISO 8601, null = open on that side. */
export type LoadAct = {
  readonly label: string
  readonly form: ItemForm
  readonly methodKey: string
  readonly stepKey: string | null
  readonly stepTitle: string
  readonly act: 'start' | 'end' | 'reading' | null
  readonly opensAt: string | null
  readonly closesAt: string | null
}

/** Tests that have the same step and the same window: one round at the bench. Times in ms. */
export type Round = {
  readonly methodKey: string
  readonly stepKey: string | null
  readonly stepTitle: string
  readonly from: number
  readonly to: number
  readonly tests: number
}

/** Acts of the same step and window together, in order of beginning; acts without an end are none. */
export function roundsOf(acts: readonly LoadAct[], now: number): readonly Round[] {
  const rounds = new Map<string, Round>()
  for (const { methodKey, stepKey, stepTitle, opensAt, closesAt } of acts) {
    if (closesAt === null) continue
    const key = [methodKey, stepKey, opensAt, closesAt].join(' ')
    const from = opensAt === null ? now : Date.parse(opensAt)
    const round = rounds.get(key) ?? { methodKey, stepKey, stepTitle, from, to: Date.parse(closesAt), tests: 0 }
    rounds.set(key, { ...round, tests: round.tests + 1 })
  }
  return [...rounds.values()].sort((one, other) => one.from - other.from)
}

/** Two rounds of one step are one queue; of two steps they are two places at once. */
export function overlaps(one: Round, other: Round): boolean {
  const sameStep = one.methodKey === other.methodKey && one.stepKey === other.stepKey
  return !sameStep && one.from < other.to && other.from < one.to
}

export type DayLoad = {
  /** Hands-on minutes of the acts that must be done by this day; what is late counts today. */
  readonly minutes: number
  /** Windows that close on this day, specimens of one round together. */
  readonly windows: number
}

/**
 * What acts ask of each day; `null` stands for no day in particular.
 * @param dayOf the calendar day of an instant on the laboratory's wall
 */
export function loadByDay(
  acts: readonly LoadAct[],
  now: string,
  dayOf: (iso: string) => string,
): ReadonlyMap<string | null, DayLoad> {
  const days = new Map<string | null, LoadAct[]>()
  for (const act of acts) {
    const day = dueDayOf(act, now, dayOf)
    days.set(day, [...(days.get(day) ?? []), act])
  }
  return new Map(
    [...days].map(([day, own]) => {
      const closing = own.filter(({ closesAt }) => closesAt !== null && dayOf(closesAt) === day)
      return [day, { minutes: minutesOf(own), windows: roundsOf(closing, Date.parse(now)).length }]
    }),
  )
}

/** The day by which an act must be done, else the day from which it can be; today where that has passed. */
function dueDayOf({ opensAt, closesAt }: LoadAct, now: string, dayOf: (iso: string) => string): string | null {
  const at = closesAt ?? opensAt
  if (at === null) return null
  return dayOf(Date.parse(at) < Date.parse(now) ? now : at)
}

function minutesOf(acts: readonly LoadAct[]): number {
  return acts.reduce((sum, { form, stepKey, act }) => sum + (personMinutesOf(form, stepKey, act) ?? 0), 0)
}

/** A stretch of time whose windows ask for more hands-on work than it has minutes. */
export type Crowding = {
  readonly from: number
  readonly to: number
  readonly minutes: number
  readonly acts: readonly LoadAct[]
}

/**
 * The stretch in which one person's windows ask for most beyond its length: acts whose whole window lies in it. Null where
 * every stretch between two window ends is long enough. Acts without hands-on minutes, without an end, or already late are
 * left out.
 */
export function crowdingOf(acts: readonly LoadAct[], now: number): Crowding | null {
  const timed = acts.flatMap((act) => {
    const minutes = personMinutesOf(act.form, act.stepKey, act.act) ?? 0
    const to = act.closesAt === null ? null : Date.parse(act.closesAt)
    if (to === null || to < now || minutes === 0) return []
    return [{ act, minutes, from: Math.max(now, act.opensAt === null ? now : Date.parse(act.opensAt)), to }]
  })
  const byEnd = timed.toSorted((a, b) => a.to - b.to)
  let worst: (Crowding & { readonly excess: number }) | null = null
  for (const from of new Set(timed.map((one) => one.from))) {
    let [minutes, lastStart] = [0, 0]
    for (const one of byEnd) {
      if (one.from < from) continue
      minutes += one.minutes
      // A window of a start ends with the start: the last run may go on beyond it.
      if (one.act.act === 'start') lastStart = Math.max(lastStart, one.minutes)
      const excess = minutes - lastStart - (one.to - from) / 60_000 // ms a minute, exactly
      if (excess <= (worst?.excess ?? 0)) continue
      const { to } = one
      worst = { from, to, minutes, excess, acts: inside(byEnd, from, to) }
    }
  }
  return worst && { from: worst.from, to: worst.to, minutes: worst.minutes, acts: worst.acts }
}

function inside(timed: readonly { act: LoadAct; from: number; to: number }[], from: number, to: number) {
  return timed.filter((one) => one.from >= from && one.to <= to).map(({ act }) => act)
}

/** The longest shift, in minutes: what one person works at most in a day. A shift may end after midnight. */
export function shiftMinutes(shifts: readonly { readonly from: string; readonly to: string }[]): number {
  // 60 minutes an hour and 1440 a day, exactly.
  const minutes = (clock: string) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5))
  return Math.max(...shifts.map(({ from, to }) => (minutes(to) - minutes(from) + 1440) % 1440)) // a day, exactly
}

/** `3:20`, whole minutes, cut. */
export function hoursAndMinutes(minutes: number): string {
  const whole = Math.floor(minutes)
  // 60 minutes an hour, exactly.
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`
}
