import { type Excursion, type HeldCondition, isNoFarther } from '@curebook/trade/procedure/condition-log'
import { decimal } from '@curebook/trade/quantity/decimal'
import type { ExcursionRow } from './excursions.repository.ts'
import type { HeldStay } from './held-stays.ts'
import { instantWords } from './instant-words.ts'

/** A time out of what somebody inside asked for, with who stood in it then. */
export type Found = Excursion & { readonly held: HeldCondition; readonly stays: readonly HeldStay[] }

/** Span and peak in the laboratory's words. */
export function spanText({ from, until, peak, ended, held }: Found, zone: string): string {
  const farthest = `${decimal(peak).gt(held.high) ? 'highest' : 'lowest'} ${peak} ${held.unit}`
  return ended
    ? `from ${instantWords(zone, from)} to ${instantWords(zone, until)}, ${farthest}.`
    : `from ${instantWords(zone, from)} on, last seen so ${instantWords(zone, until)}, ${farthest}.`
}

/** Several times out of limits in one sentence. */
export function piecesText(pieces: readonly Found[], zone: string): string {
  return pieces.map((piece) => spanText(piece, zone).replace(/\.$/, '')).join(', and ')
}

export function isSame(one: { low: string; high: string }, other: { low: string; high: string }): boolean {
  return decimal(one.low).eq(other.low) && decimal(one.high).eq(other.high)
}

export function overlaps(stay: HeldStay, { from, until }: Excursion): boolean {
  return (
    Date.parse(stay.from) <= Date.parse(until) && (stay.until === null || Date.parse(stay.until) >= Date.parse(from))
  )
}

/** What is kept and what is seen now are one where they share a moment, whatever order the values came in. */
export function touches(row: ExcursionRow, { from, until }: Excursion): boolean {
  return row.fromAt.getTime() <= Date.parse(until) && row.untilAt.getTime() >= Date.parse(from)
}

/** Whether what is seen now was all known when what is kept was decided: no longer, and no farther outside. */
export function covers(row: ExcursionRow, { from, until, peak, held }: Found): boolean {
  return (
    row.fromAt.getTime() <= Date.parse(from) &&
    row.untilAt.getTime() >= Date.parse(until) &&
    isNoFarther(peak, row.peak, held)
  )
}

export function isEqual(row: ExcursionRow, found: Found): boolean {
  return isSameSpan(row, found) && row.ended === found.ended
}

/** The same time with the same peak, whether or not it is known by now to be over. */
export function isSameSpan(row: ExcursionRow, { from, until, peak }: Found): boolean {
  return row.fromAt.getTime() === Date.parse(from) && row.untilAt.getTime() === Date.parse(until) && row.peak === peak
}
