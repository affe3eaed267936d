/**
 * How an act stands to its window: `late` it has closed, `closing` it closes soon, `open` it may be done now,
 * `opens-later` not yet, `any-time` nothing bounds it.
 */
export type Urgency = 'late' | 'closing' | 'open' | 'opens-later' | 'any-time'

/** Order of urgencies on a list, most urgent first; kept with a due act so that lists sort without judging. */
export const urgencyOrder: readonly Urgency[] = ['late', 'closing', 'open', 'opens-later', 'any-time']

/** Minutes before its end from which an open window counts as closing; common practice, no source. */
export const closingMinutes = 30

/**
 * Judges an act by its window. Both ends belong to the window; a window that has not opened is never `closing`.
 * @param now ISO 8601, like both ends; null = open on that side
 */
export function urgencyOf(opensAt: string | null, closesAt: string | null, now: string): Urgency {
  const at = Date.parse(now)
  if (closesAt !== null && at > Date.parse(closesAt)) return 'late'
  if (opensAt !== null && at < Date.parse(opensAt)) return 'opens-later'
  if (closesAt !== null && Date.parse(closesAt) - at <= closingMinutes * 60_000) return 'closing'
  return opensAt === null && closesAt === null ? 'any-time' : 'open'
}

/** What a test waits for that is no act at the bench: a person's decision on a deviation, or a spare in its place. */
export type Held = 'decision' | 'spare'

/** Whether a test stands still: begun and past its window with nothing done, or held by what only a person can settle. */
export function isStuck({
  urgency,
  started,
  held,
}: {
  readonly urgency: Urgency
  readonly started: boolean
  readonly held: Held | null
}): boolean {
  return held !== null || (started && urgency === 'late')
}
