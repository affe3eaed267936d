import type { PostedReading, Reading } from '@curebook/contract/bench'
import type { Saving } from '#components/save-state.tsx'
import type { OutboxEntry, OutboxProblem, OutboxState } from '#lib/outbox/outbox-entry.ts'

/** A reading, a correction or a withdrawal that was entered here, from Enter until the server's record shows it. */
export type Entry = {
  readonly id: string
  readonly testId: string
  /** Slot of a reading; a correction names what it corrects. */
  readonly slot: { readonly stepKey: string; readonly key: string; readonly repeat: number } | undefined
  readonly corrects: string | undefined
  /** The reading that it takes back. */
  readonly undoes: string | undefined
  readonly typed: string
  /** What it is and of which specimen, for the list of what waits. */
  readonly label: string
  /** When it was read, by this device's clock. */
  readonly at: string | undefined
  /** When it was entered, by this device's clock, ms. */
  readonly enteredAt: number | undefined
  readonly state: OutboxState
  /** How many times it was sent in vain: from then on it waits for the network. */
  readonly tries: number
  readonly problem: OutboxProblem | undefined
  readonly answer: PostedReading | undefined
}

type Body = {
  readonly stepKey?: string
  readonly key?: string
  readonly repeat?: number
  readonly typed?: string
  readonly time?: { readonly eventAt?: string }
}

/** What waits in the outbox, read as a reading; nothing for entries of other kinds. */
export function entryOf({
  id,
  lane,
  path,
  body,
  label,
  queuedAt,
  state,
  attempts,
  problem,
}: OutboxEntry): Entry | undefined {
  const correction = /\/readings\/([^/]+)\/corrections$/.exec(path)
  const withdrawal = /\/readings\/([^/]+)\/withdrawal$/.exec(path)
  if (correction === null && withdrawal === null && !/\/tests\/[^/]+\/readings$/.test(path)) return undefined
  const { stepKey, key, repeat = 1, typed = '', time } = body as Body
  return {
    id,
    testId: lane,
    slot: stepKey === undefined || key === undefined ? undefined : { stepKey, key, repeat },
    corrects: correction?.[1],
    undoes: withdrawal?.[1],
    typed,
    label,
    at: time?.eventAt,
    enteredAt: Date.parse(queuedAt) || undefined,
    state,
    tries: state === 'sending' ? attempts - 1 : attempts,
    problem,
    answer: undefined,
  }
}

/** Saving…, Saved, Waiting for network (n) or Not saved: what stands worst is said. `savedAt` is the server's time. */
export function savingOfEntries(entries: readonly Entry[], online: boolean): Saving {
  const refused = entries.findLast(({ state }) => state === 'refused')
  if (refused !== undefined) return { state: 'refused', reason: refused.problem?.message ?? '' }
  const open = entries.filter(({ state }) => state !== 'stored')
  if (open.length > 0 && (!online || open.some(({ tries }) => tries > 0)))
    return { state: 'waiting', count: open.length }
  if (open.length > 0) return { state: 'saving' }
  const savedAt = entries.at(-1)?.answer?.reading.receivedAt
  return savedAt === undefined ? { state: 'idle' } : { state: 'saved', at: savedAt }
}

/** The reading that stood in the slot already, where that is why an entry was refused. */
export function conflictOf(problem: OutboxProblem | undefined): Reading | undefined {
  if (problem?.code !== 'conflict') return undefined
  const stored = problem.extra.stored as Partial<Reading> | undefined
  return typeof stored?.id === 'string' && typeof stored.typed === 'string' ? (stored as Reading) : undefined
}
