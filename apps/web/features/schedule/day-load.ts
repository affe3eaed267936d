import type { ScheduleRow } from '@curebook/contract/schedule'
import type { LaboratoryView } from '@curebook/contract/laboratory'
import { personMinutesOf } from '@curebook/trade/procedure/person-minutes'
import { dayOf } from '#lib/laboratory-time.ts'
import { roundsOf } from './person-load.ts'
import type { Clock } from './schedule-view.ts'

export type DayLoad = {
  /** Hands-on minutes of the acts that must be done by this day; what is late counts today. */
  readonly minutes: number
  /** Windows that close on this day, specimens of one round together. */
  readonly windows: number
}

/** `count` calendar days from today on, in the laboratory's zone. */
export function daysFrom({ now, zone }: Clock, count: number): readonly string[] {
  const today = Date.parse(`${dayOf(now, zone)}T12:00:00Z`)
  return Array.from({ length: count }, (_, index) => new Date(today + index * 86_400_000).toISOString().slice(0, 10))
}

/** What a person's next acts ask of each day, and of no day in particular. Rows of others are left out by the caller. */
export function dayLoadsOf(
  rows: readonly ScheduleRow[],
  clock: Clock,
  days: readonly string[],
): { readonly days: readonly DayLoad[]; readonly anyTime: number } {
  const dated = rows.map((row) => ({ row, day: dayOfRow(row, clock) }))
  return {
    days: days.map((day) => {
      const own = dated.filter((one) => one.day === day).map(({ row }) => row)
      const closing = own.filter(({ closesAt }) => closesAt !== null && dayOf(closesAt, clock.zone) === day)
      return { minutes: minutesOf(own), windows: roundsOf(closing, Date.parse(clock.now)).length }
    }),
    anyTime: minutesOf(dated.filter(({ day }) => day === null).map(({ row }) => row)),
  }
}

/** The longest shift, in minutes: what one person works at most in a day. A shift may end after midnight. */
export function shiftMinutes(shifts: LaboratoryView['shifts']): number {
  const minutes = (clock: string) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5))
  return Math.max(...shifts.map(({ from, to }) => (minutes(to) - minutes(from) + 1440) % 1440))
}

/** `3:20`, whole minutes, cut. */
export function hoursAndMinutes(minutes: number): string {
  const whole = Math.floor(minutes)
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`
}

/** The day by which the act must be done, else the day on which it can be; null: nothing bounds it. */
function dayOfRow({ opensAt, closesAt, urgency }: ScheduleRow, { now, zone }: Clock): string | null {
  const at = closesAt ?? opensAt
  if (at === null) return null
  // An act that could be done long since is work of today.
  const late = urgency === 'late' || (closesAt === null && at < now)
  return dayOf(late ? now : at, zone)
}

function minutesOf(rows: readonly ScheduleRow[]): number {
  return rows.reduce((sum, { form, stepKey, act }) => sum + (personMinutesOf(form, stepKey, act) ?? 0), 0)
}
