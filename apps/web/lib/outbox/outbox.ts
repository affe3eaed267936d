import { ApiProblem } from '../api-problem.ts'
import { isServerAway } from '../server-away.ts'
import { headsOf, idsBehind, idsBehindThese, lanesOf } from './lanes.ts'
import type { NewOutboxEntry, OutboxEntry, OutboxProblem } from './outbox-entry.ts'
import type { OutboxStore } from './outbox-store.ts'
import { refusedPieces } from './refused-pieces.ts'
import { groupsOf, rowOf, rowsInOne } from './together.ts'

export type Person = { readonly labId: string; readonly membershipId: string; readonly personName: string }
export type OutboxNews =
  /**
   * `toSend`: something may go that could not before. Sending itself changes entries too, and must wake no other tab.
   * `waits`: these were tried, or stand behind what was, and stay here for now.
   */
  | { readonly kind: 'changed'; readonly toSend: boolean; readonly waits?: readonly string[] }
  /** Refused: the record is not what the screen thought. */
  | {
      readonly kind: 'refused'
      readonly id: string
      readonly topics: readonly string[]
      readonly problem: OutboxProblem
    }
  | {
      readonly kind: 'stored'
      readonly id: string
      readonly at: string
      readonly topics: readonly string[]
      readonly answer: unknown
    }

export type Outbox = {
  /** All of them are on the device once it resolves, or none. */
  readonly put: (person: Person, ...entries: readonly NewOutboxEntry[]) => Promise<void>
  /**
   * Puts entries in the place of refused ones (`ids`): what waited behind those waits behind these. All or none, and nothing
   * is sent in between.
   */
  readonly replace: (person: Person, ids: readonly string[], ...entries: readonly NewOutboxEntry[]) => Promise<void>
  readonly list: () => Promise<OutboxEntry[]>
  /** Sends what may be sent, lane by lane, and says after how many milliseconds to try again (undefined: nothing waits). */
  readonly sendAll: (membershipId: string) => Promise<number | undefined>
  readonly sendAgain: (id: string) => Promise<void>
  /** Takes an entry from the device, and its withdrawal with it. */
  readonly takeOut: (id: string) => Promise<void>
  /**
   * Takes entries whose refusal was shown from the device. One that others wait behind stays until it is replaced, sent again or
   * taken out: they may rest on it, and would go without it.
   */
  readonly letGo: (ids: readonly string[]) => Promise<void>
}

/** What came of an entry: the lanes that it still holds, and after how many ms to try again. */
type Coming = { readonly holds: ReadonlySet<string>; readonly wait?: number }

const FIRST_WAIT_MS = 1_000
const LONGEST_WAIT_MS = 30_000

/**
 * Written before the request, removed after the server's yes, in order within a lane; an entry of several lanes passes nothing
 * in any of them. A refusal holds back what stands behind it in its lanes only; one act for many goes in one request and is answered row by row; no answer, a fault of the server (5xx), "too many", "sign in again"
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
  type Outcome = { readonly answer: unknown } | { readonly cause: unknown }

  async function sendOne(entry: OutboxEntry): Promise<Outcome | undefined> {
    const [sending] = await store.change([entry.id], (standing) => [asSending(standing)])
    // Another tab has sent it, or its person has taken it out there.
    if (sending === undefined) return undefined
    tell({ kind: 'changed', toSend: false })
    return outcomeOf(send(sending))
  }

  /** What came of each entry of a group; nothing of one that is on the device no more. */
  async function sendInOne(group: readonly OutboxEntry[]): Promise<(entry: OutboxEntry) => Outcome | undefined> {
    const sending = await store.change(
      group.map(({ id }) => id),
      (entry) => [asSending(entry)],
    )
    if (sending.length === 0) return () => undefined
    tell({ kind: 'changed', toSend: false })
    const outcome = await outcomeOf(send(rowsInOne(sending)))
    return (entry) => (sending.some(({ id }) => id === entry.id) ? rowOf(outcome, entry) : undefined)
  }

  /** Sends an entry once everything before it in its lanes has gone. */
  async function sendBehind(
    entry: OutboxEntry,
    before: readonly Promise<Coming>[],
    { inOne, later }: { inOne: ReadonlyMap<string, Promise<Outcome | undefined>>; later: readonly OutboxEntry[] },
  ): Promise<Coming> {
    const lanes = lanesOf(entry)
    const holds = new Set(lanes)
    const came = await Promise.all(before)
    if (came.some((one) => lanes.some((lane) => one.holds.has(lane)))) return { holds }
    if (entry.state === 'refused') {
      const waits = idsBehind(lanes, later)
      if (waits.length > 0) tell({ kind: 'changed', toSend: false, waits })
      return { holds }
    }
    const outcome = await (inOne.get(entry.id) ?? sendOne(entry))
    // What stands behind it is looked at anew: something else may stand in its place.
    if (outcome === undefined) return { holds, wait: 0 }
    if ('cause' in outcome) return afterFailure(entry, outcome.cause, later)
    await store.remove(entry.id)
    tell({ kind: 'stored', id: entry.id, at: now().toISOString(), topics: entry.topics, answer: outcome.answer })
    return { holds: new Set() }
  }

  async function afterFailure(entry: OutboxEntry, cause: unknown, later: readonly OutboxEntry[]): Promise<Coming> {
    const problem = problemOf(cause)
    const stays = await store.change([entry.id], (standing) =>
      problem === undefined ? [{ ...standing, state: 'queued' }] : refusedPieces(standing, problem),
    )
    const lanes = stays.flatMap(lanesOf)
    const holds = new Set(lanes)
    const waits = [...(problem === undefined ? [entry.id] : []), ...idsBehind(lanes, later)]
    tell({ kind: 'changed', toSend: false, waits })
    if (stays.length === 0) return { holds }
    if (problem === undefined)
      return { holds, wait: Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(entry.attempts, 10)) }
    tell({ kind: 'refused', id: entry.id, topics: entry.topics, problem })
    return { holds }
  }

  /** New entries, behind everything that is on the device. */
  function asQueued(all: readonly OutboxEntry[], person: Person, entries: readonly NewOutboxEntry[]): OutboxEntry[] {
    const order = Math.max(now().getTime(), (all.at(-1)?.order ?? 0) + 1)
    const queuedAt = now().toISOString()
    return entries.map((entry, at) => ({
      ...entry,
      ...person,
      queuedAt,
      order: order + at,
      attempts: 0,
      state: 'queued',
    }))
  }

  return {
    put: async (person, ...entries) => {
      await store.put(asQueued(await store.all(), person, entries))
      tell({ kind: 'changed', toSend: true })
    },
    replace: async (person, ids, ...entries) => {
      const all = await store.all()
      const made = asQueued(all, person, entries)
      // Pressed again, an act may have the id that it had.
      const refused = new Set([...ids, ...made.map(({ id }) => id)])
      const behind = idsBehindThese(
        refused,
        all.filter(({ membershipId }) => membershipId === person.membershipId),
      )
      // New ones may stand in lanes of their own too, so all go to the end, in the order in which they were: no lane's order changes.
      const places = new Map(behind.map((id, at) => [id, (made.at(-1)?.order ?? 0) + 1 + at]))
      let stand = false
      await store.change([...refused, ...behind], (standing) => {
        const order = places.get(standing.id)
        if (order !== undefined) return [{ ...standing, order }]
        // Sent again in another tab meanwhile: it goes on, and the new ones behind it.
        if (standing.state !== 'refused') return [standing]
        if (stand) return []
        stand = true
        return made
      })
      if (!stand) await store.put(made)
      tell({ kind: 'changed', toSend: true })
    },
    list: () => store.all(),
    sendAll: async (membershipId) => {
      const own = (await store.all()).filter((entry) => entry.membershipId === membershipId)
      const inOne = new Map<string, Promise<Outcome | undefined>>()
      for (const group of groupsOf(headsOf(own))) {
        const answered = sendInOne(group)
        for (const entry of group)
          inOne.set(
            entry.id,
            answered.then((came) => came(entry)),
          )
      }
      const last = new Map<string, Promise<Coming>>()
      const coming = own.map((entry, at) => {
        const before = new Set(lanesOf(entry).flatMap((lane) => last.get(lane) ?? []))
        const came = sendBehind(entry, [...before], { inOne, later: own.slice(at + 1) })
        for (const lane of lanesOf(entry)) last.set(lane, came)
        return came
      })
      const waits = (await Promise.all(coming)).flatMap(({ wait }) => wait ?? [])
      return waits.length === 0 ? undefined : Math.min(...waits)
    },
    sendAgain: async (id) => {
      const stands = await store.change([id], (entry) => [{ ...entry, state: 'queued', problem: undefined }])
      if (stands.length > 0) tell({ kind: 'changed', toSend: true })
    },
    takeOut: async (id) => {
      // What takes it back has nothing to take back any more. It goes first: the device may go down between.
      const withdrawn = (await store.all()).filter(({ path }) => path.endsWith(`/readings/${id}/withdrawal`))
      for (const gone of [...withdrawn.map((entry) => entry.id), id]) await store.remove(gone)
      // What stood behind it goes now.
      tell({ kind: 'changed', toSend: true })
    },
    letGo: async (ids) => {
      const all = await store.all()
      const alone = all.filter(({ id, membershipId }) => {
        const own = all.filter((entry) => entry.membershipId === membershipId)
        return ids.includes(id) && idsBehindThese(new Set([id]), own).length === 0
      })
      for (const { id } of alone) await store.remove(id)
      tell({ kind: 'changed', toSend: false })
    },
  }
}

const asSending = (entry: OutboxEntry): OutboxEntry => ({ ...entry, state: 'sending', attempts: entry.attempts + 1 })

function outcomeOf(sent: Promise<unknown>): Promise<{ readonly answer: unknown } | { readonly cause: unknown }> {
  return sent.then(
    (answer) => ({ answer }),
    (cause: unknown) => ({ cause }),
  )
}

/** Whether the same request may succeed later without anybody changing it. */
function mayPass(cause: unknown): boolean {
  if (!(cause instanceof ApiProblem)) return true
  return isServerAway(cause) || cause.status >= 500 || [401, 408, 425, 429].includes(cause.status)
}

/** Why the server said no; undefined where nothing was said that holds. */
function problemOf(cause: unknown): OutboxProblem | undefined {
  if (mayPass(cause) || !(cause instanceof ApiProblem)) return undefined
  const { code, status, message, errors, extra } = cause
  return { code, status, message, errors, extra }
}
