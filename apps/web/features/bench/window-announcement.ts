/** Times before the end of a window at which a person who does not see the screen is told (minutes). */
const toldAt = [5, 1, 0]

export type RunningWindow = { readonly name: string; readonly closesAt: string | null }

/** What became worth saying between two ticks (ms): the countdown itself is never read out second by second. `also`: minutes at which this device warns. */
export function announcementsBetween(
  before: number,
  now: number,
  windows: readonly RunningWindow[],
  also: readonly number[] = [],
): readonly { readonly name: string; readonly minutes: number }[] {
  const marks = [...new Set([...toldAt, ...also])].toSorted((one, other) => other - one)
  return windows.flatMap(({ name, closesAt }) => {
    if (closesAt === null) return []
    const closes = Date.parse(closesAt)
    const minutes = marks.findLast((minute) => before < closes - minute * 60_000 && now >= closes - minute * 60_000)
    return minutes === undefined ? [] : [{ name, minutes }]
  })
}
