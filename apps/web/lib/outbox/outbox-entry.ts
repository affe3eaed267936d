import type { FieldError } from '../api-problem.ts'

/**
 * Something a person entered, on its way to the server. `queued`: written to the device. `sending`: on the wire.
 * `refused`: the server said no; it stays, with what was said, until the person sends it again or takes it out.
 * Once stored it is gone from the device.
 */
export type OutboxState = 'queued' | 'sending' | 'stored' | 'refused'

export type OutboxProblem = {
  readonly code: string
  readonly status: number
  readonly message: string
  readonly errors: readonly FieldError[]
  readonly extra: Readonly<Record<string, unknown>>
}

export type NewOutboxEntry = {
  /** The id of the thing that is made: a second sending is the same thing. */
  readonly id: string
  /** Entries of one lane go one after another, in the order they were made: a test's id. */
  readonly lane: string
  readonly path: string
  readonly body: unknown
  /** What it is, for the person: "W1 of 10-3, 812.4 g". */
  readonly label: string
  /** Live topics that change once it is stored. */
  readonly topics: readonly string[]
  /** One act for many, a body of `rows` with one row each: what stands first in its lane of a group goes in one request. */
  readonly group?: string
  /**
   * One request for many specimens that stays one (a load): a row of its body each, by the row's id, with the lane it stands
   * in too. A row that is refused becomes an entry of its own under that id.
   */
  readonly rows?: readonly EntryRow[]
}

export type EntryRow = {
  readonly id: string
  /** The test's id, by which the answer names the row. */
  readonly lane: string
  /** What the row is by itself, for the person. */
  readonly label: string
}

export type OutboxEntry = NewOutboxEntry & {
  readonly labId: string
  /** Who made it: it is sent under no other name, whoever is signed in by then. */
  readonly membershipId: string
  readonly personName: string
  readonly queuedAt: string
  readonly order: number
  readonly attempts: number
  readonly state: Exclude<OutboxState, 'stored'>
  readonly problem?: OutboxProblem
}
