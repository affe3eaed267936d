import type { PostStepEvents } from '@curebook/contract/bench'
import type { BulkOutcome } from '@curebook/contract/schedule'
import { ApiProblem } from '#lib/api-problem.ts'
import type { Heard } from '#lib/outbox/hearing.ts'
import type { NewOutboxEntry, OutboxEntry, OutboxProblem } from '#lib/outbox/outbox-entry.ts'
import { refusedAlready } from './waiting-acts.ts'

type Rows = BulkOutcome['rows']
export type ActRow = Omit<Rows[number], 'outcome'> & {
  /** The act's own id, by which the device knows it. */
  readonly actId: string
  /** `kept`: on this device until the network is back, or what stands before it is settled. */
  readonly outcome: Rows[number]['outcome'] | 'kept'
}
export type Acts = PostStepEvents & {
  /** What the act is, for the list of what waits, by test. */
  readonly labels: Readonly<Record<string, string>>
}

/** So long a press waits for the server before the act is said to be kept here (our own choice, no source). */
export const answerMs = 4_000

export type ActOutbox = {
  readonly entries: readonly OutboxEntry[]
  readonly replace: (ids: readonly string[], ...entries: readonly NewOutboxEntry[]) => Promise<void>
  readonly letGo: (ids: readonly string[]) => Promise<void>
  readonly listen: (ids: readonly string[]) => {
    readonly within: (ms: number) => Promise<ReadonlyMap<string, Heard>>
    readonly end: () => void
  }
}

/**
 * Writes one act for many specimens to the device, each into the lane of its test behind what is there, and waits a moment
 * for what comes of it. A refusal is shown at once and leaves the device, so that it holds back nothing unseen; with something
 * waiting behind it, which may rest on it, it stays there.
 * @throws ApiProblem where the act as a whole was refused
 */
export async function sendActs(
  { entries, replace, letGo, listen }: ActOutbox,
  { labels, ...body }: Acts,
  of: {
    readonly membershipId: string
    readonly path: string
    readonly group: string
    readonly topicsOf: (testId: string) => readonly string[]
  },
): Promise<{ readonly rows: readonly ActRow[] }> {
  // Pressed again: the refused one was seen, and this stands in its place.
  const anew = body.rows.map(({ testId }) => ({ testId, stepKey: body.stepKey, kind: body.kind }))
  const replaced = refusedAlready(entries, of.membershipId, anew)
  const loads = entries.filter(({ id, path }) => replaced.includes(id) && path.includes('/loads/'))
  // Rare, and so fetched when it is wanted.
  const again =
    loads.length === 0 ? undefined : (await import('#features/loads/acts-anew.ts')).actsAnew({ labels, ...body }, loads)
  const heard = listen(body.rows.map(({ id }) => id))
  try {
    await replace(
      replaced,
      ...(again?.moves ?? []),
      ...(again?.rest ?? body.rows).map((row) => ({
        id: row.id,
        lane: row.testId,
        path: of.path,
        body: { ...body, rows: [row] },
        label: labels[row.testId] ?? '',
        topics: of.topicsOf(row.testId),
        ...(body.rows.length > 1 ? { group: of.group } : {}),
      })),
      ...(again?.read ?? []),
    )
    const came = await heard.within(answerMs)
    // What was entered at the load is in no field here: refused again, it stays on the device with that.
    const stays = new Set(again?.moves.map(({ id }) => id))
    await letGo([...came].flatMap(([id, { state }]) => (state === 'refused' && !stays.has(id) ? [id] : [])))
    const problems = [...came.values()].flatMap((one) => (one.state === 'refused' ? [one.problem] : []))
    const [whole] = problems
    if (whole !== undefined && problems.length === came.size && problems.every(({ code }) => code !== 'refused-rows'))
      throw problemAgain(whole)
    return { rows: body.rows.map(({ id, testId }) => rowOf(id, testId, came.get(id))) }
  } finally {
    heard.end()
  }
}

function rowOf(actId: string, testId: string, heard: Heard | undefined): ActRow {
  if (heard?.state === 'stored') return { id: testId, actId, outcome: 'done', sentence: null }
  if (heard?.state === 'refused') return { id: testId, actId, outcome: 'refused', sentence: heard.problem.message }
  return { id: testId, actId, outcome: 'kept', sentence: null }
}

/** A refusal that stood on the device, as it was thrown at first. */
export function problemAgain({ code, status, message, errors, extra }: OutboxProblem): ApiProblem {
  return new ApiProblem(code, status, message, '', errors, extra)
}
