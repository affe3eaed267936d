/** An assignment as it was made: who had the test before. */
export type Made = { readonly assignmentId: string; readonly from: string | null }

export type NoticeDraft = {
  readonly toId: string
  readonly kind: 'given' | 'taken'
  readonly assignmentIds: readonly string[]
}

/**
 * Whom one act of assigning tells, each person once: who has the tests now of all of them, and each who had some of theirs.
 * Nobody is told of what they did themselves.
 */
export function noticesOf(made: readonly Made[], { to, by }: { to: string | null; by: string }): NoticeDraft[] {
  const taken = new Map<string, string[]>()
  for (const { assignmentId, from } of made) {
    if (from === null || from === to) continue
    taken.set(from, [...(taken.get(from) ?? []), assignmentId])
  }
  const given = made.map(({ assignmentId }) => assignmentId)
  return [
    ...(to === null ? [] : [{ toId: to, kind: 'given' as const, assignmentIds: given }]),
    ...[...taken].map(([toId, assignmentIds]) => ({ toId, kind: 'taken' as const, assignmentIds })),
  ].filter(({ toId, assignmentIds }) => toId !== by && assignmentIds.length > 0)
}
