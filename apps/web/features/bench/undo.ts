import type { Reading } from '@curebook/contract/bench'
import type { Entry } from './reading-entry.ts'

/** So long after Enter a reading can be taken back at a touch (T31 of our screens' rules; our own choice, no source). */
export const undoMs = 10_000

/** Readings that were taken back here, whether or not the record shows it yet. A refused one stands, to be seen. */
export function undoneIds(entries: readonly Entry[]): ReadonlySet<string> {
  const refused = new Set(entries.flatMap(({ id, state }) => (state === 'refused' ? [id] : [])))
  return new Set(
    entries.flatMap(({ id, undoes }) =>
      undoes === undefined || refused.has(id) || refused.has(undoes) ? [] : [undoes],
    ),
  )
}

/** The reading that was entered last, if it can be taken back at `now` (ms by the device's clock), and until when. */
export function undoableAt(
  entries: readonly Entry[],
  now: number,
): { readonly entry: Entry; readonly until: number } | undefined {
  const last = entries.at(-1)
  if (last === undefined || last.slot === undefined || last.corrects !== undefined || last.state === 'refused')
    return undefined
  if (last.enteredAt === undefined || undoneIds(entries).has(last.id)) return undefined
  const until = last.enteredAt + undoMs
  return now < until ? { entry: last, until } : undefined
}

/** The record as it will be once the server has heard of what was taken back here: those readings stand struck through. */
export function withUndone(
  readings: readonly Reading[],
  undone: ReadonlySet<string>,
  { by, at, reason }: NonNullable<Reading['withdrawn']>,
): readonly Reading[] {
  if (undone.size === 0) return readings
  return readings.map((reading) =>
    undone.has(reading.id) && !reading.superseded
      ? { ...reading, superseded: true, withdrawn: { by, at, reason } }
      : reading,
  )
}
