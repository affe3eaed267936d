import { ApiProblem } from '../api-problem.ts'
import type { NewOutboxEntry, OutboxEntry } from './outbox-entry.ts'
import type { OutboxStore } from './outbox-store.ts'

export type Person = { readonly labId: string; readonly membershipId: string; readonly personName: string }
export type OutboxNews =
  | { readonly kind: 'changed' }
  /** Refused: the record is not what the screen thought. */
  | { readonly kind: 'refused'; readonly id: string; readonly topics: readonly string[] }
  | {
      readonly kind: 'stored'
      readonly id: string
      readonly at: string
      readonly topics: readonly string[]
      readonly answer: unknown
    }

export type Outbox = {
  readonly put: (person: Person, entry: NewOutboxEntry) => Promise<void>
  readonly list: () => Promise<OutboxEntry[]>
  /** Sends what may be sent, lane by lane, and says after how many milliseconds to try again (undefined: nothing waits). */
  readonly sendAll: (membershipId: string) => Promise<number | undefined>
  readonly sendAgain: (id: string) => Promise<void>
  readonly takeOut: (id: string) => Promise<void>
}

const FIRST_WAIT_MS = 1_000
const LONGEST_WAIT_MS = 30_000

/**
 * Written before the request, removed after the server's yes, in order within a lane. A refusal holds back what stands
 * behind it in its lane only; no answer, a fault of the server (5xx), "too many", "sign in again"
 * and "somebody else is signed in" are tried again.
 */
export function createOutbox({
  store,
  send,
  now,
  tell,
}: {
  readonly store: OutboxStore
  readonly send: (entry: OutboxEntry) => Promise<unknown>
  readonly now: () => Date
  readonly tell: (news: OutboxNews) => void
}): Outbox {
  async function save(entry: OutboxEntry) {
    await store.put(entry)
    tell({ kind: 'changed' })
  }

  async function sendLane(lane: readonly OutboxEntry[]): Promise<number | undefined> {
    for (const entry of lane) {
      if (entry.state === 'refused') return undefined
      const sending: OutboxEntry = { ...entry, state: 'sending', attempts: entry.attempts + 1 }
      await save(sending)
      const outcome = await send(sending).then(
        (answer) => ({ answer }),
        (cause: unknown) => ({ cause }),
      )
      if ('cause' in outcome) {
        const after = afterFailure(sending, outcome.cause)
        await save(after)
        if (after.state === 'refused') tell({ kind: 'refused', id: entry.id, topics: entry.topics })
        return mayPass(outcome.cause)
          ? Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(entry.attempts, 10))
          : undefined
      }
      await store.remove(entry.id)
      tell({ kind: 'stored', id: entry.id, at: now().toISOString(), topics: entry.topics, answer: outcome.answer })
    }
    return undefined
  }

  return {
    put: async (person, entry) => {
      const all = await store.all()
      const order = Math.max(now().getTime(), (all.at(-1)?.order ?? 0) + 1)
      await save({ ...entry, ...person, queuedAt: now().toISOString(), order, attempts: 0, state: 'queued' })
    },
    list: () => store.all(),
    sendAll: async (membershipId) => {
      const lanes = new Map<string, OutboxEntry[]>()
      for (const entry of await store.all()) {
        if (entry.membershipId === membershipId) lanes.set(entry.lane, [...(lanes.get(entry.lane) ?? []), entry])
      }
      const waits = (await Promise.all([...lanes.values()].map(sendLane))).filter((wait) => wait !== undefined)
      return waits.length === 0 ? undefined : Math.min(...waits)
    },
    sendAgain: async (id) => {
      const entry = (await store.all()).find((candidate) => candidate.id === id)
      if (entry !== undefined) await save({ ...entry, state: 'queued', problem: undefined })
    },
    takeOut: async (id) => {
      await store.remove(id)
      tell({ kind: 'changed' })
    },
  }
}

/** Whether the same request may succeed later without anybody changing it. */
function mayPass(cause: unknown): boolean {
  if (!(cause instanceof ApiProblem)) return true
  return cause.status === 0 || cause.status >= 500 || [401, 408, 425, 429].includes(cause.status)
}

function afterFailure(entry: OutboxEntry, cause: unknown): OutboxEntry {
  if (mayPass(cause) || !(cause instanceof ApiProblem)) return { ...entry, state: 'queued' }
  const { code, status, message, errors, extra } = cause
  return { ...entry, state: 'refused', problem: { code, status, message, errors, extra } }
}
