import type { LoadMoved } from '@curebook/contract/loads'
import { answerMs, problemAgain, type ActOutbox } from '#features/bench/send-acts.ts'
import type { NewOutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { outcomesIn } from '#lib/outbox/together.ts'

export type MovedRow = {
  /** The test's id. */
  readonly id: string
  /** `kept`: on this device until the network is back, or what stands before it is settled. */
  readonly outcome: 'done' | 'refused' | 'kept'
  readonly sentence: string | null
}

type Beside = {
  /** Refused entries in whose place the act stands. */
  readonly replaces: readonly string[]
  /** What goes beside it by itself. */
  readonly further?: readonly NewOutboxEntry[]
  /** Something in it stands nowhere on the screen: refused at once, it stays on the device with that. */
  readonly keeps?: boolean
}

/**
 * Writes one act on a load to the device, behind what is there in its lanes, and waits a moment for what comes of it. What is
 * refused at once is told here and leaves the device, unless something waits behind it.
 * @returns one row for each of its specimens
 * @throws ApiProblem where the act as a whole was refused
 */
export async function sendLoad(
  { replace, letGo, listen }: Pick<ActOutbox, 'replace' | 'letGo' | 'listen'>,
  entry: NewOutboxEntry,
  { replaces, further = [], keeps = false }: Beside,
): Promise<readonly MovedRow[]> {
  const { rows = [] } = entry
  const heard = listen([entry.id])
  try {
    await replace(replaces, entry, ...further)
    const came = (await heard.within(answerMs)).get(entry.id)
    if (came?.state === 'stored') return movedRows(entry, came.answer)
    if (came?.state !== 'refused') return rows.map(({ lane }) => ({ id: lane, outcome: 'kept', sentence: null }))
    const { problem } = came
    if (problem.code !== 'refused-rows') {
      if (!keeps) await letGo([entry.id])
      throw problemAgain(problem)
    }
    const moved = movedRows(entry, problem.extra.answer)
    const refused = new Set(moved.flatMap(({ id, outcome }) => (outcome === 'refused' ? [id] : [])))
    if (!keeps) await letGo(rows.flatMap(({ id, lane }) => (refused.has(lane) ? [id] : [])))
    return moved
  } finally {
    heard.end()
  }
}

function movedRows({ rows = [] }: NewOutboxEntry, answer: unknown): readonly MovedRow[] {
  const outcomes = outcomesIn(answer) as LoadMoved['outcome']['rows']
  return rows.map(({ lane }) => {
    const told = outcomes.find(({ id }) => id === lane)
    return { id: lane, outcome: told?.outcome ?? 'done', sentence: told?.sentence ?? null }
  })
}
