import type { Method } from '@curebook/contract/methods'
import { dayAfter, type ClosedDays } from '@curebook/trade/procedure/closed-days'
import type { EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import {
  closedAmong,
  neededDaysOf,
  nextStartDay,
  startWeekdays,
  weekdayRuns,
} from '@curebook/trade/procedure/weekday-law'
import { formatDay } from '#lib/laboratory-time.ts'

export type CastDays = {
  readonly key: string
  readonly name: string
  /** Weekdays on which casting leads to no closed day, as runs of 1 Monday … 7 Sunday. */
  readonly runs: readonly (readonly [number, number])[]
  /** What would fall on closed days when cast on the day asked about. */
  readonly closed: ReturnType<typeof closedAmong>
  /** The first day from the one asked about on that does; null: none within a year. */
  readonly next: string | null
}

/** For each method, by the waits of its edition in force: on which days it can be cast, and what casting on `day` would mean. */
export function castDaysOf(methods: readonly Method[], closed: ClosedDays, day: string): readonly CastDays[] {
  return methods.flatMap((method) => {
    const edition = method.editions.find(({ inForce }) => inForce)
    if (edition === undefined) return []
    const declared = { steps: method.steps, windows: method.windows } as Pick<MethodDeclaration, 'steps' | 'windows'>
    const needed = neededDaysOf(declared, edition.parameters as EditionParameters)
    return [
      {
        key: method.key,
        name: method.shortName,
        runs: weekdayRuns(startWeekdays(needed, closed)),
        closed: closedAmong(day, needed, closed),
        next: nextStartDay(day, needed, closed),
      },
    ]
  })
}

/** "Mon–Wed, Fri". */
export function runsInWords(runs: CastDays['runs'], language: string): string {
  // 2026-01-04 is a Sunday.
  const name = (weekday: number) => formatDay(dayAfter('2026-01-04', weekday), language).split(' ')[0] ?? ''
  return runs.map(([from, to]) => (from === to ? name(from) : `${name(from)}–${name(to)}`)).join(', ')
}
