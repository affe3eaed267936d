import type { EventTime } from '@curebook/contract/common'
import { dayOf, instantAt } from '#lib/laboratory-time.ts'

/** When an act happened, as chosen: now, so many minutes ago, or at a time of day. */
export type EventChoice =
  | { readonly how: 'now' }
  | { readonly how: 'ago'; readonly minutes: number }
  | { readonly how: 'at'; readonly clock: string }

export const minutesAgo = [2, 5, 10] as const
/** More than this back wants a word (practice: lid on, hands dried, then the tablet). */
export const wordAfterMinutes = 10
const MINUTE = 60_000

export type ReadEventTime =
  | { readonly ok: true; readonly time: EventTime; readonly labAt: string; readonly wantsWord: boolean }
  | {
      readonly ok: false
      readonly field: 'clock' | 'word'
      readonly fault: 'no-clock' | 'wrong-clock' | 'no-word'
      readonly labAt?: string
    }

/** Of what the instrument itself sent at this moment; a time that somebody chose stays theirs. */
export function asSent(time: EventTime, sent: boolean): EventTime {
  return sent && time.eventFrom === 'now' ? { ...time, eventFrom: 'instrument' } : time
}

/**
 * The moment of the act. `deviceNow` is this device's clock in ms, `offset` what the laboratory's clock is ahead of it;
 * the time is sent by the device's clock, beside which `sentAt` lets the server put both right.
 */
export function readEventTime(
  choice: EventChoice,
  word: string,
  { deviceNow, offset, zone }: { readonly deviceNow: number; readonly offset: number; readonly zone: string },
): ReadEventTime {
  const labNow = deviceNow + offset
  const labAt =
    choice.how === 'now'
      ? labNow
      : choice.how === 'ago'
        ? labNow - choice.minutes * MINUTE
        : atClock(choice.clock, labNow, zone)
  if (labAt === 'no-clock' || labAt === 'wrong-clock') return { ok: false, field: 'clock', fault: labAt }
  const wantsWord = choice.how === 'at' && labNow - labAt > wordAfterMinutes * MINUTE
  const note = word.trim()
  if (wantsWord && note === '') return { ok: false, field: 'word', fault: 'no-word', labAt: iso(labAt) }
  const time: EventTime = {
    eventAt: iso(labAt - offset),
    eventFrom: choice.how,
    toldAt: iso(deviceNow),
    sentAt: iso(deviceNow),
    ...(note === '' ? {} : { note }),
  }
  return { ok: true, time, labAt: iso(labAt), wantsWord }
}

/** "8:05", "08.05", "0805" as the last such moment that is not in the future: shortly after midnight 23:50 is yesterday. */
function atClock(typed: string, labNow: number, zone: string): number | 'no-clock' | 'wrong-clock' {
  if (typed.trim() === '') return 'no-clock'
  const parts = /^\s*(\d{1,2})\s*[:.h]?\s*(\d{2})\s*$/.exec(typed)
  if (parts === null || Number(parts[1]) > 23 || Number(parts[2]) > 59) return 'wrong-clock'
  const clock = `${(parts[1] ?? '').padStart(2, '0')}:${parts[2]}`
  const onDay = (at: number) => Date.parse(instantAt(dayOf(iso(at), zone), clock, zone))
  const today = onDay(labNow)
  // A minute on the clock lasts a minute: 10:02 typed at 10:02:10 began before now.
  return today <= labNow ? today : onDay(labNow - 24 * 60 * MINUTE)
}

function iso(milliseconds: number): string {
  return new Date(milliseconds).toISOString()
}
