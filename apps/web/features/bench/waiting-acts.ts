import type { BenchTask, PostStepEvents } from '@curebook/contract/bench'
import type { PutIn } from '@curebook/contract/loads'
import type { Saving } from '#components/save-state.tsx'
import { refusedBefore } from '#lib/outbox/lanes.ts'
import type { OutboxEntry, OutboxState } from '#lib/outbox/outbox-entry.ts'

export type WaitingAct = {
  readonly id: string
  readonly testId: string
  readonly stepKey: string
  readonly kind: 'start' | 'end'
  readonly at: string
  readonly refused: boolean
  /** Why it was refused. */
  readonly reason: string | undefined
  /** The refused entry of its test that must be settled before it goes, by its label. */
  readonly behind: string | undefined
}

type Act = Pick<WaitingAct, 'testId' | 'stepKey' | 'kind'>

/** The acts in an entry: one act for many at the bench, or specimens that go into or come out of a load. */
function actsOf({ path, body }: OutboxEntry): readonly Act[] {
  if (path.endsWith('/step-events')) {
    const { stepKey, kind, rows } = body as PostStepEvents
    return rows.map(({ testId }) => ({ testId, stepKey, kind }))
  }
  const way = /\/loads\/[^/]+\/(in|out)$/.exec(path)?.[1]
  if (way === undefined) return []
  const { rows } = body as Pick<PutIn, 'rows'>
  return rows.map(({ testId, stepKey }) => ({ testId, stepKey, kind: way === 'in' ? 'start' : 'end' }))
}

/** Starts and ends that are on this device still, read out of what waits there, in its order. */
export function waitingActs(entries: readonly OutboxEntry[], membershipId: string): readonly WaitingAct[] {
  const own = entries.filter((entry) => entry.membershipId === membershipId)
  return own.flatMap((entry) =>
    actsOf(entry).map((act) => ({
      ...act,
      id: entry.id,
      at: (entry.body as Pick<PostStepEvents, 'time'>).time.eventAt,
      refused: entry.state === 'refused',
      reason: entry.problem?.message,
      behind: refusedBefore(entry, own)?.label,
    })),
  )
}

/** What is still to be done: an act that is on this device already is not asked for again. A refused one is. */
export function stillToDo<Task extends Pick<BenchTask, 'testId' | 'stepKey' | 'act'>>(
  tasks: readonly Task[],
  acts: readonly WaitingAct[],
): readonly Task[] {
  const waiting = new Set(
    acts.filter(({ refused }) => !refused).map(({ testId, stepKey, kind }) => `${testId}/${stepKey}/${kind}`),
  )
  return tasks.filter(({ testId, stepKey, act }) => !waiting.has(`${testId}/${stepKey}/${act}`))
}

/** Refused entries on this device whose acts are confirmed anew, every one of them. */
export function refusedAlready(
  entries: readonly OutboxEntry[],
  membershipId: string,
  anew: readonly Act[],
): readonly string[] {
  const isAnew = (act: Act) =>
    anew.some(({ testId, stepKey, kind }) => testId === act.testId && stepKey === act.stepKey && kind === act.kind)
  return entries
    .filter((entry) => entry.membershipId === membershipId && entry.state === 'refused')
    .filter((entry) => actsOf(entry).length > 0 && actsOf(entry).every(isAnew))
    .map(({ id }) => id)
}

type Outcome = 'done' | 'kept' | 'refused'
export type OutcomeNow = { readonly outcome: Outcome; readonly sentence: string | null }

/** What came of an act by now: one that was kept may have been stored or refused since. */
export function outcomeNow(
  told: OutcomeNow,
  state: OutboxState | undefined,
  entry: Pick<OutboxEntry, 'problem'> | undefined,
): OutcomeNow {
  if (told.outcome !== 'kept') return told
  if (state === 'stored') return { outcome: 'done', sentence: null }
  if (state === 'refused') return { outcome: 'refused', sentence: entry?.problem?.message ?? null }
  return told
}

/** The save state of acts: what is kept on this device waits, and is not said to be saved. */
export function savingOfActs(saving: Saving, outcomes: readonly Pick<OutcomeNow, 'outcome'>[]): Saving {
  if (saving.state !== 'saved') return saving
  const kept = outcomes.filter(({ outcome }) => outcome === 'kept').length
  if (kept > 0) return { state: 'waiting', count: kept }
  // Nothing was saved where every one was refused; the reasons stand beside.
  return outcomes.length > 0 && outcomes.every(({ outcome }) => outcome === 'refused') ? { state: 'idle' } : saving
}
