/** Days when nobody works: weekdays (1 Monday … 7 Sunday) and single dates, `2026-04-03`. */
export type ClosedDays = { readonly weekdays: readonly number[]; readonly dates: readonly string[] }

/** 1 Monday … 7 Sunday of a calendar day. */
export function weekdayOf(day: string): number {
  // Sunday is day 7 in ISO 8601.
  return new Date(`${day}T12:00:00Z`).getUTCDay() || 7
}

/** Whether nobody works on the day. */
export function isClosedDay(day: string, closed: ClosedDays): boolean {
  return closed.weekdays.includes(weekdayOf(day)) || closed.dates.includes(day)
}

/** The calendar day so many days later. */
export function dayAfter(day: string, count: number): string {
  // Milliseconds of a day, exactly.
  return new Date(Date.parse(`${day}T12:00:00Z`) + count * 86_400_000).toISOString().slice(0, 10)
}
