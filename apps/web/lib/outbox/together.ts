import { ApiProblem } from '../api-problem.ts'
import type { OutboxEntry } from './outbox-entry.ts'

type Outcome = { readonly answer: unknown } | { readonly cause: unknown }
export type AnsweredRow = { readonly id?: unknown; readonly outcome?: unknown; readonly sentence?: unknown }

/** So many rows the server takes in one request (`PostStepEventsSchema`). */
const mostRows = 200

/** Of what stands first in each lane, those that are one act for many. */
export function groupsOf(heads: readonly OutboxEntry[]): readonly (readonly OutboxEntry[])[] {
  const groups = new Map<string, OutboxEntry[]>()
  for (const entry of heads)
    if (entry.group !== undefined && entry.state !== 'refused')
      groups.set(entry.group, [...(groups.get(entry.group) ?? []), entry])
  return [...groups.values()]
    .flatMap((group) =>
      Array.from({ length: Math.ceil(group.length / mostRows) }, (_, at) =>
        group.slice(at * mostRows, (at + 1) * mostRows),
      ),
    )
    .filter(({ length }) => length > 1)
}

/** The entries of a group as one: the first, with the rows of all. */
export function rowsInOne(group: readonly OutboxEntry[]): OutboxEntry {
  const [first] = group
  if (first === undefined) throw new Error('a group has entries')
  return { ...first, body: { ...(first.body as object), rows: group.flatMap(({ body }) => rowsIn(body)) } }
}

/** What came of one entry of a group: the answer's row names its lane. Without a row nothing is known, and it is sent again. */
export function rowOf(outcome: Outcome, { lane }: OutboxEntry): Outcome {
  const answer = 'answer' in outcome ? outcome.answer : answerOfRefused(outcome.cause)
  if (answer === undefined) return outcome
  const row = outcomesIn(answer).find(({ id }) => id === lane)
  if (row === undefined) return { cause: new Error('the answer has no row for this') }
  if (row.outcome !== 'refused') return { answer: { rows: [row] } }
  const sentence = typeof row.sentence === 'string' ? row.sentence : ''
  return { cause: new ApiProblem('refused-rows', 200, sentence, '', [], { answer: { rows: [row] } }) }
}

/** The answer in which some rows were refused (`sendEntry`). */
function answerOfRefused(cause: unknown): unknown {
  return cause instanceof ApiProblem && cause.code === 'refused-rows' ? cause.extra.answer : undefined
}

/** The rows of an answer, with what came of each; a load's answer has them in its outcome. */
export function outcomesIn(answer: unknown): readonly AnsweredRow[] {
  const inside = typeof answer === 'object' && answer !== null && 'outcome' in answer ? answer.outcome : answer
  return rowsIn(inside).filter((row): row is AnsweredRow => typeof row === 'object' && row !== null)
}

function rowsIn(body: unknown): readonly unknown[] {
  return typeof body === 'object' && body !== null && 'rows' in body && Array.isArray(body.rows) ? body.rows : []
}
