import { wroteNothing } from '#lib/sending.ts'

/** Acts of one time, sent together. */
export type ActGroup<Taken> = {
  readonly taken: Taken
  readonly rows: readonly { readonly id: string; readonly testId: string }[]
}

type Held<Taken> = { readonly id: string; readonly taken: Taken; readonly chosen: string; readonly unsure: boolean }

export type ActSending<Taken> = {
  /** What is sent for these tests: those whose answer was lost as the very same act, the others with the time as it is now. */
  readonly groups: (testIds: readonly string[], chosen: string, now: Taken) => readonly ActGroup<Taken>[]
  /** They were answered, done or refused: the next time it is another act. */
  readonly answered: (testIds: readonly string[]) => void
  /** Their sending failed with `error`; one that is certain to have written nothing is forgotten. */
  readonly failed: (testIds: readonly string[], error: unknown) => void
}

/**
 * Ids and times of one act for many specimens, chosen anew between one press and the next. Each specimen keeps its own id and
 * time until it is answered, so that one added after a lost answer is not told as done when the others were.
 */
export function createActSending<Taken>(makeId: () => string): ActSending<Taken> {
  const held = new Map<string, Held<Taken>>()
  return {
    groups(testIds, chosen, now) {
      const groups = new Map<Taken, { id: string; testId: string }[]>()
      for (const testId of testIds) {
        const before = held.get(testId)
        // Told otherwise by the person: another act, which must not answer to the id of the first.
        const act = before?.chosen === chosen ? before : { id: makeId(), taken: now, chosen, unsure: false }
        held.set(testId, act)
        groups.set(act.taken, [...(groups.get(act.taken) ?? []), { id: act.id, testId }])
      }
      return [...groups].map(([taken, rows]) => ({ taken, rows }))
    },
    answered(testIds) {
      for (const testId of testIds) held.delete(testId)
    },
    failed(testIds, error) {
      for (const testId of testIds) {
        const act = held.get(testId)
        if (act === undefined) continue
        // Once an answer was lost, a later refusal (signed out, say) tells nothing of the sending before it.
        if (!act.unsure && wroteNothing({ status: 'error', error })) held.delete(testId)
        else held.set(testId, { ...act, unsure: true })
      }
    },
  }
}
