import type { TabletSettings } from '#lib/tablet/tablet-settings.ts'

export type ClosingWindow = {
  /** The same over reloads and on every screen of the device. */
  readonly key: string
  readonly name: string
  readonly opensAt: string | null
  readonly closesAt: string | null
}
export type DueWarning = {
  readonly window: string
  readonly name: string
  readonly closesAt: string
  /** Whole minutes left, never less than what is left. */
  readonly minutes: number
  /** What is settled by giving it: a first warning that was slept through is not given after the last. */
  readonly settles: readonly string[]
}

type Minutes = TabletSettings['warnings']
const MINUTE = 60_000

/**
 * The warnings to be given at `now` (ms, by the laboratory's clock). Each stands for one moment, so that a tablet that slept
 * gives at most one for a window, and none once it has closed. A window shorter than the first warning warns when it opens.
 */
export function dueWarnings(
  windows: readonly ClosingWindow[],
  now: number,
  minutes: Minutes,
  given: ReadonlySet<string>,
): readonly DueWarning[] {
  return windows.flatMap((window) => {
    if (window.closesAt === null) return []
    const closes = Date.parse(window.closesAt)
    if (now >= closes) return []
    const passed = marksOf(window, minutes).filter(({ at }) => at <= now)
    const latest = passed.at(-1)
    if (latest === undefined || given.has(latest.id)) return []
    const left = Math.ceil((closes - now) / MINUTE)
    const settles = passed.map(({ id }) => id)
    return [{ window: window.key, name: window.name, closesAt: window.closesAt, minutes: left, settles }]
  })
}

/** When the next warning of any window falls due; undefined while none is to come. */
export function nextWarningAt(windows: readonly ClosingWindow[], now: number, minutes: Minutes): number | undefined {
  const coming = windows.flatMap((window) => marksOf(window, minutes).flatMap(({ at }) => (at > now ? [at] : [])))
  return coming.length === 0 ? undefined : Math.min(...coming)
}

/** Whether a window opens or closes within so many minutes: somebody stands by and looks at the clock. */
export function isInLastMinutes(
  windows: readonly Pick<ClosingWindow, 'opensAt' | 'closesAt'>[],
  now: number,
  minutes: number,
): boolean {
  return windows
    .flatMap(({ opensAt, closesAt }) => [opensAt, closesAt])
    .some((iso) => iso !== null && Date.parse(iso) > now && Date.parse(iso) - now <= minutes * MINUTE)
}

/** The two moments of a window, in order. Which one it is makes the name, not its minutes: a changed setting repeats none. */
function marksOf({ key, opensAt, closesAt }: ClosingWindow, { first, last }: Minutes) {
  if (closesAt === null) return []
  const opens = opensAt === null ? -Infinity : Date.parse(opensAt)
  const before = (minutes: number) => Math.max(opens, Date.parse(closesAt) - minutes * MINUTE)
  return [
    { id: `${key} first`, at: before(first) },
    { id: `${key} last`, at: before(last) },
  ]
}
