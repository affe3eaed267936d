/** A stretch of time in ms, `to` not included. */
export type Span = { readonly from: number; readonly to: number }

/** A time of day and another, on the laboratory's wall: `12:00` to `12:30`; an end before its beginning is on the next day. */
export type DayTimes = { readonly from: string; readonly to: string }

/** The earliest start from `at` on of something so long that meets none of the spans; a moment is 1 ms long. */
export function firstFree(at: number, lengthMs: number, taken: readonly Span[]): number {
  let start = at
  for (const { from, to } of taken.toSorted((a, b) => a.from - b.from))
    if (from < start + lengthMs && start < to) start = to
  return start
}

/** Whether something that begins then and is so long meets one of the spans. */
export function meets(at: number, lengthMs: number, taken: readonly Span[]): boolean {
  return taken.some(({ from, to }) => from < at + lengthMs && at < to)
}

/**
 * The times of day on each of the days, as spans.
 * @param instantOf the instant of a time of day on a calendar day, on the laboratory's wall
 */
export function spansOn(
  days: readonly string[],
  times: readonly DayTimes[],
  instantOf: (day: string, clock: string) => number,
  dayAfter: (day: string) => string,
): readonly Span[] {
  return days.flatMap((day) =>
    times.map(({ from, to }) => ({ from: instantOf(day, from), to: instantOf(to <= from ? dayAfter(day) : day, to) })),
  )
}

const dayMinutes = 1440 // exactly

/** Whether something that begins at a minute of the day and lasts so many minutes meets one of the times of day. */
export function meetsTimes(minuteOfDay: number, minutes: number, times: readonly DayTimes[]): boolean {
  const spans = times.flatMap(({ from, to }) => {
    const [start, end] = [minuteOf(from), minuteOf(to)]
    const length = (end - start + dayMinutes) % dayMinutes
    return [-dayMinutes, 0, dayMinutes].map((day) => ({ from: start + day, to: start + day + length }))
  })
  return meets(minuteOfDay, minutes, spans)
}

function minuteOf(clock: string): number {
  return Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5)) // 60 min an hour, exactly
}
