import type { ScheduleRow } from '@curebook/contract/schedule'
import { overlaps, roundsOf, type Round } from '@curebook/trade/procedure/person-load'
import { dayOf } from '#lib/laboratory-time.ts'
import type { Clock } from './schedule-view.ts'

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
  const overlapping = rounds.filter((round) => rounds.some((other) => overlaps(round, other)))
  return { tests: rows.length, rounds, openMs: unionOf(rounds), overlapping }
}

function unionOf(rounds: readonly Round[]): number {
  let [total, reached] = [0, -Infinity]
  for (const { from, to } of rounds) {
    total += Math.max(0, to - Math.max(from, reached))
    reached = Math.max(reached, to)
  }
  return total
}
