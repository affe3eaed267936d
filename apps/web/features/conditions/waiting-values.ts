import type { PostConditions } from '@curebook/contract/conditions'
import { refusedBefore } from '#lib/outbox/lanes.ts'
import type { OutboxEntry } from '#lib/outbox/outbox-entry.ts'

/** Something for a log that is on this device still, as it is told. */
export type WaitingValue = {
  readonly id: string
  readonly instrumentId: string
  readonly label: string
  /** When it was read, by this device's clock; of a correction, when it was entered. */
  readonly at: string
  readonly refused: boolean
  readonly reason: string | undefined
  /** The refused entry that must be settled before it goes, by its label. */
  readonly behind: string | undefined
}

/** What is entered for one log goes in the order in which it was entered. */
export const logLane = (instrument: string) => `log/${instrument}`

/** Values and corrections of this person for the logs of ovens and baths that are on the device, in their order. */
export function waitingValues(entries: readonly OutboxEntry[], membershipId: string): readonly WaitingValue[] {
  const own = entries.filter((entry) => entry.membershipId === membershipId)
  return own
    .filter(({ lane }) => lane.startsWith(logLane('')))
    .map((entry) => ({
      id: entry.id,
      instrumentId: entry.lane.slice(logLane('').length),
      label: entry.label,
      at: (entry.body as Partial<PostConditions>).time?.eventAt ?? entry.queuedAt,
      refused: entry.state === 'refused',
      reason: entry.problem?.message,
      behind: refusedBefore(entry, own)?.label,
    }))
}
