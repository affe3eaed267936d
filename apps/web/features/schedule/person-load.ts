import type { ScheduleRow } from '@curebook/contract/schedule'
import { dayOf } from '#lib/laboratory-time.ts'
import type { Clock } from './schedule-view.ts'

/** Tests that have the same step and the same window: one round at the bench. */
export type Round = {
  readonly methodKey: string
  readonly stepKey: string | null
  readonly stepTitle: string
  readonly from: number
  readonly to: number
  readonly tests: number
}

export type Load = {
  readonly tests: number
  /** Rounds whose window closes today, in order. */
  readonly rounds: readonly Round[]
  /** Time today in which at least one window stands open, in milliseconds. */
  readonly openMs: number
  /** Rounds of today that overlap a round of another step. */
  readonly overlapping: readonly Round[]
}

/** What a person has today, in windows and hours. Rows of others are left out by the caller. */
export function loadOf(rows: readonly ScheduleRow[], { now, zone }: Clock): Load {
  const today = dayOf(now, zone)
  const rounds = roundsOf(
    rows.filter(({ closesAt, urgency }) => closesAt !== null && urgency !== 'late' && dayOf(closesAt, zone) === today),
    Date.parse(now),
  )
  const overlapping = rounds.filter((round) => rounds.some((other) => overlap(round, other)))
  return { tests: rows.length, rounds, openMs: unionOf(rounds), overlapping }
}

/** Rounds of the given rows that would overlap what a person has already. */
export function clashesWith(
  given: readonly ScheduleRow[],
  theirs: readonly ScheduleRow[],
  now: string,
): readonly Round[] {
  const at = Date.parse(now)
  const [coming, present] = [roundsOf(given, at), roundsOf(theirs, at)]
  return coming.filter((round) => present.some((other) => overlap(round, other)))
}

/** Rows of the same step and window together, in order of beginning; rows without an end are none. */
export function roundsOf(rows: readonly ScheduleRow[], now: number): readonly Round[] {
  const rounds = new Map<string, Round>()
  for (const { methodKey, stepKey, stepTitle, opensAt, closesAt } of rows) {
    if (closesAt === null) continue
    const key = [methodKey, stepKey, opensAt, closesAt].join(' ')
    const from = Math.max(opensAt === null ? now : Date.parse(opensAt), 0)
    const round = rounds.get(key) ?? { methodKey, stepKey, stepTitle, from, to: Date.parse(closesAt), tests: 0 }
    rounds.set(key, { ...round, tests: round.tests + 1 })
  }
  return [...rounds.values()].sort((one, other) => one.from - other.from)
}

/** Two rounds of one step are one queue; of two steps they are two places at once. */
function overlap(one: Round, other: Round): boolean {
  const sameStep = one.methodKey === other.methodKey && one.stepKey === other.stepKey
  return !sameStep && one.from < other.to && other.from < one.to
}

function unionOf(rounds: readonly Round[]): number {
  let [total, reached] = [0, -Infinity]
  for (const { from, to } of rounds) {
    total += Math.max(0, to - Math.max(from, reached))
    reached = Math.max(reached, to)
  }
  return total
}
