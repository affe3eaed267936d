/** How a span is said across a room: whole minutes, cut towards zero; never seconds, which nobody reads from there. */
export type Span = {
  readonly unit: 'moment' | 'minutes' | 'hours' | 'days'
  readonly large: number
  readonly small: string
}

export function spanOf(milliseconds: number): Span {
  const minutes = Math.floor(Math.abs(milliseconds) / 60_000)
  const hours = Math.floor(minutes / 60)
  if (minutes < 1) return { unit: 'moment', large: 0, small: '' }
  if (hours < 1) return { unit: 'minutes', large: minutes, small: '' }
  if (hours < 48) return { unit: 'hours', large: hours, small: String(minutes % 60).padStart(2, '0') }
  return { unit: 'days', large: Math.floor(hours / 24), small: String(hours % 24) }
}

/** Two looks that did not come are no accident. Common practice, no source. */
const lostMs = 90_000
const oldMs = 5 * 60_000

/** Whether what stands there can be relied on: `lost` it is said since when, `old` it is greyed out as well. */
export function freshnessOf(asOf: string, now: number, failed: boolean): 'fresh' | 'lost' | 'old' {
  const age = now - Date.parse(asOf)
  if (age > oldMs) return 'old'
  return failed || age > lostMs ? 'lost' : 'fresh'
}

/** After this long without a record, somebody did a step until then. Common practice, no source. */
const goesOnMs = 2 * 3_600_000

export function goesOn(lastAt: string, now: number): boolean {
  return now - Date.parse(lastAt) <= goesOnMs
}
