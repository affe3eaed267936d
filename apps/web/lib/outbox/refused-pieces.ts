import type { OutboxEntry, OutboxProblem } from './outbox-entry.ts'
import { outcomesIn } from './together.ts'

/**
 * What stays of an entry that was refused: all of it; or, of a request for many specimens whose others were done, each
 * refused row by itself, so that it holds its own specimen and no other, and is sent again or taken out alone.
 */
export function refusedPieces(entry: OutboxEntry, problem: OutboxProblem): readonly OutboxEntry[] {
  const { rows = [], ...whole } = entry
  const outcomes = outcomesIn(problem.extra.answer)
  const refused = rows.flatMap((row) => {
    const told = outcomes.find(({ id }) => id === row.lane)
    return told?.outcome === 'refused' ? [{ row, sentence: told.sentence }] : []
  })
  if (refused.length === 0) return [{ ...entry, state: 'refused', problem }]
  const { rows: sent } = entry.body as { readonly rows: readonly { readonly id: string }[] }
  return refused.map(({ row: { id, lane, label }, sentence }) => ({
    ...whole,
    id,
    lane,
    label,
    body: { ...(entry.body as object), rows: sent.filter((one) => one.id === id) },
    state: 'refused',
    problem: { ...problem, message: typeof sentence === 'string' ? sentence : problem.message },
  }))
}
