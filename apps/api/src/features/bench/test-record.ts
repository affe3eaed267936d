import type { EditionParameters, MachineFactor } from '@curebook/trade/procedure/declaration'
import type { RecordedEvent, TakenReading } from '@curebook/trade/procedure/progress'

/** The reading that stands in a slot of a test. */
export type Slot = {
  readonly step: string
  readonly key: string
  readonly repeat: number
  readonly readingId: string
  readonly typed: string
  /** Digits in the declared unit; null for choice and text. */
  readonly value: string | null
  readonly unit: string | null
  readonly choice: string | null
  /** When the act happened by the server's clock, ISO 8601: what windows are judged by. Kept when a slip is corrected. */
  readonly at: string
  /** What the clock of the device that told this time was off, without sign. */
  readonly offsetMs: number
  readonly counts: boolean
}

export type BatchWeighing = Pick<Slot, 'key' | 'readingId' | 'typed' | 'value' | 'unit' | 'choice' | 'counts'>

/** A slot that is open because the reading in it was taken back; the next one stands in its place. */
export type OpenedSlot = Pick<Slot, 'step' | 'key' | 'repeat' | 'readingId'> & { readonly reason: string }

/** A confirmed start or end that stands. `at` is corrected by the device's clock offset; `receivedAt` is the server's. */
export type StandingEvent = {
  readonly id: string
  readonly step: string
  readonly kind: 'start' | 'end'
  readonly at: string
  readonly receivedAt: string
  readonly offsetMs: number
}

/** An entered value that the method's formula needs. */
export type SetupValue = { readonly id: string; readonly value: string; readonly unit: string; readonly source: string }

/** All that stands of one test, as loaded under its lock. */
export type TestRecord = {
  readonly id: string
  readonly itemId: string
  readonly code: string
  readonly label: string
  readonly form: string
  readonly methodKey: string
  readonly editionId: string
  readonly editionDigest: Buffer
  readonly designation: string
  readonly parameters: EditionParameters
  readonly computation: number
  readonly mixId: string | null
  readonly revisionId: string | null
  readonly revisionState: string | null
  readonly designId: string | null
  readonly projectId: string | null
  readonly clientId: string | null
  readonly purpose: string
  readonly replicate: number
  readonly state: string
  readonly counts: boolean
  readonly assigneeId: string | null
  readonly slots: readonly Slot[]
  readonly opened: readonly OpenedSlot[]
  /** What stands weighed for the batch that it is cast from; empty for a batch. */
  readonly batchWeighings: readonly BatchWeighing[]
  readonly events: readonly StandingEvent[]
  /** The machine of the run, with its factors in force when it ran. */
  readonly machine: { readonly id: string; readonly code: string; readonly factors: readonly MachineFactor[] } | null
  readonly inputs: Readonly<Record<string, SetupValue>>
}

/** States in which a test takes part no more. */
export const endedStates: readonly string[] = ['void', 'replaced']

export function recordedEvents(record: Pick<TestRecord, 'events'>): readonly RecordedEvent[] {
  return record.events.map(({ step, kind, at }) => ({ step, act: kind, at }))
}

export function takenReadings(record: Pick<TestRecord, 'slots'>): readonly TakenReading[] {
  return record.slots.map(({ step, key, repeat, at }) => ({ step, key, repeat, at }))
}
