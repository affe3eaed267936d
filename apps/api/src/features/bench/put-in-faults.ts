import type { SettlePutIn } from '@curebook/contract/put-in'
import { type DayTimes, meetsTimes } from '@curebook/trade/procedure/free-time'
import type { Soak } from '@curebook/trade/procedure/put-in'
import type { FieldError } from '@curebook/contract/problem'
import { clockIn } from '#platform/laboratory-day'
import type { SettledRun } from './put-in-lists.repository.ts'

/** What a list to be settled is held against. */
export type Held = {
  /** Label of each test that still is to be put in. */
  readonly waiting: ReadonlyMap<string, string>
  /** Label and window of each test in the bath. */
  readonly soaking: ReadonlyMap<
    string,
    { readonly label: string; readonly mayStart: number; readonly mustStart: number }
  >
  readonly soak: Soak
  readonly zone: string
  readonly breaks: readonly DayTimes[]
  readonly elsewhere: readonly SettledRun[]
}

const minute = 60_000

/** What speaks against settling a list, one sentence a row; and until when each row must start. */
export function judgeList(
  { rows, runMinutes }: Pick<SettlePutIn, 'rows' | 'runMinutes'>,
  held: Held,
): { readonly faults: readonly FieldError[]; readonly mustStartAt: readonly Date[] } {
  const faults: FieldError[] = []
  const mustStartAt: Date[] = []
  for (const [index, row] of rows.entries()) {
    const window = windowOf(row, held)
    mustStartAt.push(new Date(window?.mustStart ?? 0))
    const fault = faultOf(index, { rows, runMinutes }, held, window)
    if (fault) faults.push({ path: `rows.${index}.${fault.field}`, message: fault.message })
  }
  return { faults, mustStartAt }
}

type Row = SettlePutIn['rows'][number]
type Window = { readonly label: string; readonly mayStart: number; readonly mustStart: number }

function windowOf({ testId, putInAt }: Row, { waiting, soaking, soak }: Held): Window | null {
  const inBath = soaking.get(testId)
  if (inBath) return putInAt === null ? inBath : null
  const label = waiting.get(testId)
  if (label === undefined || putInAt === null) return null
  const putIn = Date.parse(putInAt)
  return { label, mayStart: putIn + soak.earliestMs, mustStart: putIn + soak.latestMs }
}

function faultOf(
  index: number,
  { rows, runMinutes }: Pick<SettlePutIn, 'rows' | 'runMinutes'>,
  { zone, breaks, elsewhere, waiting }: Held,
  window: Window | null,
): { readonly field: string; readonly message: string } | null {
  const row = rows[index]!
  if (window === null || rows.findIndex(({ testId }) => testId === row.testId) < index)
    return {
      field: 'testId',
      message: 'This specimen is not to be put in like this any more, or stands here twice: look at the list again.',
    }
  const { label } = window
  const clock = (ms: number) => clockIn(zone, new Date(ms))
  const inBreak = (ms: number, minutes: number) => {
    const [hours, rest] = clock(ms).split(':').map(Number)
    return meetsTimes((hours ?? 0) * 60 + (rest ?? 0), minutes, breaks)
  }
  const start = Date.parse(row.startAt)
  if (row.putInAt !== null && inBreak(Date.parse(row.putInAt), 1))
    return { field: 'putInAt', message: `${label} would be put in at ${clock(Date.parse(row.putInAt))}, in a break.` }
  if (start < window.mayStart)
    return { field: 'startAt', message: `${label} may start at ${clock(window.mayStart)}, not at ${clock(start)}.` }
  // What lies in the bath already cannot be put in anew: that it starts too late is settled as it is.
  if (start > window.mustStart && waiting.has(row.testId))
    return { field: 'startAt', message: `${label} must start by ${clock(window.mustStart)}, not at ${clock(start)}.` }
  if (inBreak(start, runMinutes))
    return { field: 'startAt', message: `The run of ${label} at ${clock(start)} would go into a break.` }
  const near = (other: number, minutes: number) =>
    start < other + minutes * minute && other < start + runMinutes * minute
  const same = rows.slice(0, index).find(({ startAt }) => near(Date.parse(startAt), runMinutes))
  if (same)
    return {
      field: 'startAt',
      message: `${label} at ${clock(start)} meets the run at ${clock(Date.parse(same.startAt))}.`,
    }
  const taken = elsewhere.find((run) => near(run.startAt.getTime(), run.runMinutes))
  if (taken)
    return {
      field: 'startAt',
      message: `${label} at ${clock(start)} meets the run of ${taken.label} of ${taken.designName}, settled for ${clock(taken.startAt.getTime())}.`,
    }
  return null
}
