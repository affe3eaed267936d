import type { PostStepEvents } from '@curebook/contract/bench'
import type { PutIn } from '@curebook/contract/loads'
import type { NewOutboxEntry, OutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { isRefusedFor, temperaturesElsewhere, withCarriedOver } from './carry-over.ts'

type Row = PostStepEvents['rows'][number]
type Acts = PostStepEvents & { readonly labels: Readonly<Record<string, string>> }

/**
 * Acts confirmed anew at the Bench that were refused as a put-in or taking out of a load: each goes into or out of that load, with
 * the temperature and the word entered there. Put into another oven, or where the load itself was refused, it goes as an act of
 * the Bench, and the temperature by itself.
 * @param refused entries of loads, each with acts of these rows alone
 * @returns what goes by a load, the rows that do not, and temperatures that go by themselves
 */
export function actsAnew(
  { labels, rows, ...acts }: Acts,
  refused: readonly OutboxEntry[],
): {
  readonly moves: readonly NewOutboxEntry[]
  readonly rest: readonly Row[]
  readonly read: readonly NewOutboxEntry[]
} {
  const again = refused.filter((entry) => goesAgain(entry, acts.instrumentId))
  const moveOf = (row: Row): readonly NewOutboxEntry[] => {
    const before = again.findLast(({ body }) => (body as PutIn).rows.some(({ testId }) => testId === row.testId))
    if (before === undefined) return []
    const { opens } = before.body as PutIn
    const way = acts.kind === 'start' ? { opens } : { word: '' }
    const moved = { rows: [{ ...row, stepKey: acts.stepKey }], time: acts.time, temperature: null, ...way }
    const body = withCarriedOver(moved, before.path, again)
    const label = labels[row.testId] ?? before.label
    const { lane, path, topics } = before
    return [{ id: row.id, lane, path, body, label, topics, rows: [{ id: row.id, lane: row.testId, label }] }]
  }
  const moves = rows.flatMap(moveOf)
  return {
    moves,
    rest: rows.filter(({ id }) => moves.every((move) => move.id !== id)),
    read: temperaturesElsewhere(refused.filter((entry) => !again.includes(entry))),
  }
}

/** Whether an act may go by the load that it was refused with: it was refused for itself or for what was read, not for the load. */
function goesAgain(entry: OutboxEntry, instrumentId: string | null): boolean {
  const { opens = null } = entry.body as Partial<PutIn>
  if (opens !== null && instrumentId !== null && instrumentId !== opens) return false
  return entry.problem?.code === 'refused-rows' || isRefusedFor(entry, ['temperature', 'time'])
}
