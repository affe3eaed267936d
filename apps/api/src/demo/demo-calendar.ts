/** The demonstration laboratory stands in this zone. */
export const demoZone = 'Europe/London'

export type DemoCalendar = {
  /** Instant of "hh:mm" on a working day of the story, day 1 being a Monday. */
  at(day: number, time: string): Date
  /** Calendar day of a day of the story, `2026-03-02`. */
  dayOf(day: number): string
}

/** The story's calendar, laid so that its sixteenth day is past: the demo never looks old. */
export function demoCalendar(now: Date): DemoCalendar {
  const monday = new Date(Date.UTC(now.getUTCFullYear(), now.getUTCMonth(), now.getUTCDate()))
  monday.setUTCDate(monday.getUTCDate() - 16)
  monday.setUTCDate(monday.getUTCDate() - ((monday.getUTCDay() + 6) % 7))
  const dayOf = (day: number) => {
    const date = new Date(monday)
    date.setUTCDate(date.getUTCDate() + day - 1)
    return date.toISOString().slice(0, 10)
  }
  return { dayOf, at: (day, time) => zonedInstant(dayOf(day), time) }
}

/** The instant at which a wall clock of the demo's zone shows a time. */
function zonedInstant(day: string, time: string): Date {
  const guess = new Date(`${day}T${time}:00Z`)
  const shown = new Intl.DateTimeFormat('en-GB', {
    timeZone: demoZone,
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).format(guess)
  const [hour = 0, minute = 0] = shown.split(':').map(Number)
  const [wantedHour = 0, wantedMinute = 0] = time.split(':').map(Number)
  return new Date(guess.getTime() - (hour * 60 + minute - wantedHour * 60 - wantedMinute) * 60_000)
}
