import type { ScheduleRow } from '@curebook/contract/schedule'
import { dayAfter } from '@curebook/trade/procedure/closed-days'
import { loadByDay, type DayLoad } from '@curebook/trade/procedure/person-load'
import { dayOf } from '#lib/laboratory-time.ts'
import type { Clock } from './schedule-view.ts'

const none: DayLoad = { minutes: 0, windows: 0 }

/** `count` calendar days from today on, in the laboratory's zone. */
export function daysFrom({ now, zone }: Clock, count: number): readonly string[] {
  const today = dayOf(now, zone)
  return Array.from({ length: count }, (_, index) => dayAfter(today, index))
}

/** What a person's next acts ask of each day, and of no day in particular. Rows of others are left out by the caller. */
export function dayLoadsOf(
  rows: readonly ScheduleRow[],
  { now, zone }: Clock,
  days: readonly string[],
): { readonly days: readonly DayLoad[]; readonly anyTime: number } {
  const load = loadByDay(rows, now, (iso) => dayOf(iso, zone))
  return { days: days.map((day) => load.get(day) ?? none), anyTime: load.get(null)?.minutes ?? 0 }
}
