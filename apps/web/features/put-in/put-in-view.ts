import type { PutIn } from '@curebook/contract/put-in'
import {
  lateIfAtOnce,
  nextActs,
  planPutIn,
  runMinutes,
  usualMarginMinutes,
  type PutInRow,
} from '@curebook/trade/procedure/put-in'
import { dayOf, instantAt } from '#lib/laboratory-time.ts'

const minute = 60_000

/** What stands in the address; empty = the usual. */
export type PutInChoice = {
  /** Calendar day and time of day of the first put-in; empty: as soon as possible. */
  readonly day: string
  readonly at: string
  readonly run: string
  readonly margin: string
  readonly spares: string
}

export type PlannedPutIn = {
  readonly rows: readonly PutInRow[]
  readonly next: ReturnType<typeof nextActs>
  /** How many of those still to be put in would be late if they went in at once. */
  readonly lateAtOnce: number
  readonly waiting: number
  readonly run: number
  readonly margin: number
}

/** Run lengths and margins to choose from, in minutes; the usual ones first in mind, others for slower hands. */
export const runChoices: readonly number[] = [13, 14, 15, 16, 18, 20, 25, 30]
export const marginChoices: readonly number[] = [0, 1, 2, 3, 5, 10]

/**
 * The list as chosen. A first put-in that has passed goes on from now: what was not put in at its time cannot be.
 * @param now the laboratory's clock in ms
 */
export function planOf(data: PutIn, choice: PutInChoice, now: number, zone: string): PlannedPutIn | null {
  if (data.soak === null) return null
  const run = chosenOf(runChoices, choice.run) ?? runMinutes.usual
  const margin = chosenOf(marginChoices, choice.margin) ?? usualMarginMinutes
  const waiting = data.waiting.filter(({ spare }) => !spare || choice.spares === 'yes')
  const soak = { earliestMs: data.soak.earliestMinutes * minute, latestMs: data.soak.latestMinutes * minute }
  const times = { soak, runMs: run * minute, marginMs: margin * minute }
  const rows = planPutIn({
    soaking: data.soaking.map(({ testId, label, mayStartAt, mustStartAt }) => ({
      ...{ id: testId, label },
      ...{ mayStart: Date.parse(mayStartAt), mustStart: Date.parse(mustStartAt) },
    })),
    waiting: waiting.map(({ testId, label }) => ({ id: testId, label })),
    firstPutIn: firstOf(choice, now, zone),
    // As a clock shows it: a window is missed when its minute is over.
    now: Math.floor(now / minute) * minute,
    ...(data.lastRunAt === null ? {} : { machineFree: Date.parse(data.lastRunAt) + run * minute }),
    ...times,
  })
  return {
    rows,
    next: nextActs(rows),
    lateAtOnce: lateIfAtOnce(waiting.length, times),
    waiting: waiting.length,
    run,
    margin,
  }
}

/** The chosen time of day as `HH:MM`, else nothing. */
export function clockOf(typed: string): string | undefined {
  const found = /^([01]?\d|2[0-3])[:.]?([0-5]\d)$/.exec(typed.trim())
  return found === null ? undefined : `${(found[1] ?? '').padStart(2, '0')}:${found[2]}`
}

function firstOf({ day, at }: PutInChoice, now: number, zone: string): number {
  const soon = Math.ceil(now / minute) * minute
  const today = dayOf(new Date(now).toISOString(), zone)
  const clock = clockOf(at)
  if (clock === undefined && (day === '' || day === today)) return Math.ceil(now / (5 * minute)) * 5 * minute
  const chosen = Date.parse(instantAt(day === '' ? today : day, clock ?? '10:00', zone))
  return Math.max(chosen, soon)
}

function chosenOf(choices: readonly number[], typed: string): number | undefined {
  return choices.find((one) => String(one) === typed)
}
