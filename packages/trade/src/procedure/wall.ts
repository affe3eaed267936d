/** A window of the wall: both ends ISO 8601; null = open on that side. */
export type WallTimes = { readonly opensAt: string | null; readonly closesAt: string | null }

/** Milliseconds of an hour, exactly. */
const hour = 3_600_000

/** How long a window that has closed stays on the wall: a day, in which it can still be decided. Common practice, no source. */
export const lateShownMs = 24 * hour
/** What closes within a shift is close. Common practice, no source. */
export const soonMs = 8 * hour
/** What opens within a day is next. Common practice, no source. */
export const nextMs = 24 * hour

export type WallWindows<Row> = { readonly late: Row[]; readonly soon: Row[]; readonly next: Row[] }

/**
 * What stands on the wall at `now`, recomputed from the ends alone: late ones with what closed last first, since it is the
 * most likely to be still in hand; then what closes; then what opens. The rest does not concern anybody today.
 */
export function windowsAt<Row extends WallTimes>(rows: readonly Row[], now: number): WallWindows<Row> {
  const late: Row[] = []
  const soon: Row[] = []
  const next: Row[] = []
  for (const row of rows) {
    const [opens, closes] = [timeOf(row.opensAt), timeOf(row.closesAt)]
    if (closes !== null && closes < now) {
      if (now - closes <= lateShownMs) late.push(row)
    } else if (opens !== null && opens > now) {
      if (opens - now <= nextMs) next.push(row)
    } else if (closes !== null && closes - now <= soonMs) soon.push(row)
  }
  return {
    late: late.toSorted((one, other) => timeOf(other.closesAt)! - timeOf(one.closesAt)!),
    soon: soon.toSorted((one, other) => timeOf(one.closesAt)! - timeOf(other.closesAt)!),
    next: next.toSorted((one, other) => timeOf(one.opensAt)! - timeOf(other.opensAt)!),
  }
}

/** The share of a window that is left at `now`, 0 to 1; null without a beginning and an end. */
export function shareLeft({ opensAt, closesAt }: WallTimes, now: number): number | null {
  const [opens, closes] = [timeOf(opensAt), timeOf(closesAt)]
  if (opens === null || closes === null || closes <= opens) return null
  return Math.min(1, Math.max(0, (closes - now) / (closes - opens)))
}

export type Fitting<Row> = { readonly rows: Row[]; readonly more: number }

/** As many rows as there are places, and how many stand behind them. */
export function fitting<Row>(rows: readonly Row[], places: number): Fitting<Row> {
  return { rows: rows.slice(0, places), more: Math.max(0, rows.length - places) }
}

/** Late ones first, but never so many that nothing else is seen: what still closes keeps half of the places. */
export function fittingClosing<Row>(
  { late, soon }: Pick<WallWindows<Row>, 'late' | 'soon'>,
  places: number,
): Fitting<Row> & { readonly moreLate: number } {
  const kept = Math.min(soon.length, Math.floor(places / 2))
  const lateRows = late.slice(0, places - kept)
  const rows = [...lateRows, ...soon.slice(0, places - lateRows.length)]
  return { rows, more: late.length + soon.length - rows.length, moreLate: late.length - lateRows.length }
}

/** What a person recorded: of which step of which method, where, when (ISO 8601). */
export type RecordedAct = {
  readonly personId: string
  readonly methodKey: string | null
  readonly stepKey: string
  readonly place: string | null
  readonly at: string
}
export type LastWork = RecordedAct & { readonly since: string }

/** How far back a record says that somebody is at work: a shift and its ends. Common practice, no source. */
export const atWorkMs = 10 * hour

/** What each person did last and since when: since the first of the records in a row that are of the same step. */
export function lastWorkOf(acts: readonly RecordedAct[]): LastWork[] {
  const found = new Map<string, LastWork>()
  for (const act of acts.toSorted((one, other) => Date.parse(one.at) - Date.parse(other.at))) {
    const before = found.get(act.personId)
    const goesOn = before?.methodKey === act.methodKey && before?.stepKey === act.stepKey
    found.set(act.personId, {
      ...act,
      place: act.place ?? (goesOn ? before.place : null),
      since: goesOn ? before.since : act.at,
    })
  }
  return [...found.values()].toSorted((one, other) => Date.parse(other.at) - Date.parse(one.at))
}

function timeOf(at: string | null): number | null {
  return at === null ? null : Date.parse(at)
}
