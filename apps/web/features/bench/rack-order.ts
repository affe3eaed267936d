import type { Rack } from '@curebook/contract/bench'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'

export type RackRow = Rack['rows'][number]

/** The row that a typed or scanned code means: the painted code, or the place in the series ("12-1"). */
export function rowOfCode<Row extends { readonly code: string; readonly label: string }>(
  rows: readonly Row[],
  typed: string,
): Row | undefined {
  const wanted = plain(typed)
  return rows.find(({ code }) => plain(code) === wanted) ?? rows.find(({ label }) => plain(label) === wanted)
}

export type Meaning = 'code' | 'weight' | 'both' | 'neither'

/** What a device typed at a rack: a scanner a code, a balance a weight. Codes may be digits alone: `7394` can be either. */
export function meaningOf(
  rows: readonly { readonly code: string; readonly label: string }[],
  typed: string,
  unit: string | undefined,
): Meaning {
  const code = rowOfCode(rows, typed) !== undefined
  const weight = readTypedNumber(typed, { mayBeNegative: true, ...(unit === undefined ? {} : { unit }) }).ok
  if (code) return weight ? 'both' : 'code'
  return weight ? 'weight' : 'neither'
}

/** The next one offered: the first without a weight after the last one weighed, then from the top again. */
export function nextExpected<Row extends { readonly testId: string }>(
  rows: readonly Row[],
  done: (row: Row) => boolean,
  after: string | undefined,
): Row | undefined {
  const at = rows.findIndex(({ testId }) => testId === after)
  return [...rows.slice(at + 1), ...rows.slice(0, at + 1)].find((row) => !done(row))
}

/** What lies on the balance once this one is stored, where a rack is weighed in the order of its list; none when all are done. */
export function nextInOrder<Row extends { readonly testId: string }>(
  rows: readonly Row[],
  done: (row: Row) => boolean,
  stored: string,
): Row | undefined {
  // The one just stored may not be known as done yet.
  return nextExpected(rows, (row) => row.testId === stored || done(row), stored)
}

/** Rows as they are now, those seen before kept in their places: a specimen does not vanish while its rack is weighed. */
export function keepSeen(seen: readonly RackRow[], now: readonly RackRow[]): readonly RackRow[] {
  const current = new Map(now.map((row) => [row.testId, row]))
  const known = new Set(seen.map(({ testId }) => testId))
  return [...seen.map((row) => current.get(row.testId) ?? row), ...now.filter(({ testId }) => !known.has(testId))]
}

export function plain(code: string): string {
  return code.trim().toUpperCase().replaceAll(/\s+/g, '')
}
