import type { EventTime } from '@curebook/contract/common'
import { invalidField } from './problem.ts'

/** When something happened as told, and what the server knows of the device that told it. */
export type Told = {
  readonly eventAt: Date
  readonly eventFrom: EventTime['eventFrom']
  readonly sentAt: Date
  readonly receivedAt: Date
  /** receivedAt − sentAt: what the device's clock is behind; receivedAt − toldAt where it was set back in between. */
  readonly offsetMs: number
  /** The event by the server's clock: what windows are judged by. */
  readonly effectiveAt: Date
  readonly note: string | null
}

/** More than this back wants a word; 10 minutes are what it takes to put a lid on and dry one's hands. Common practice, no source. */
const wordAfterMs = 10 * 60_000
/** Messages and clocks are never quite together. */
const futureLeewayMs = 2 * 60_000

/**
 * Event time and entry time are two things; both are kept.
 * @throws AppError `invalid-input` beside `time.eventAt` or `time.note`
 */
export function tellTime(time: EventTime, receivedAt: Date): Told {
  const eventAt = new Date(time.eventAt)
  const sentAt = new Date(time.sentAt)
  const toldAt = time.toldAt ? new Date(time.toldAt) : sentAt
  // Sent before it was told: the clock was set back while the message waited. How far ahead it was then nobody knows any more;
  // it happened when it came, at the latest. By the clock of sending it would lie in the future, and be refused for that.
  const offsetMs = receivedAt.getTime() - Math.max(sentAt.getTime(), toldAt.getTime())
  const effectiveAt = new Date(eventAt.getTime() + offsetMs)
  if (effectiveAt.getTime() > receivedAt.getTime() + futureLeewayMs)
    throw invalidField('time.eventAt', 'This time lies in the future. Give the time at which it happened.')
  // Counted from when it was told: a message that waited on the device is no later for it.
  if (time.eventFrom === 'at' && toldAt.getTime() - eventAt.getTime() > wordAfterMs && !time.note)
    throw invalidField('time.note', 'It was more than 10 minutes ago: say in a word why it is entered now.')
  return { eventAt, eventFrom: time.eventFrom, sentAt, receivedAt, offsetMs, effectiveAt, note: time.note || null }
}
