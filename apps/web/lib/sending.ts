import { ApiProblem } from './api-problem.ts'

/** What is known of the last sending of a form. */
export type LastSending = { readonly status: 'idle' | 'pending' | 'success' | 'error'; readonly error: unknown }

export type Sending<Taken> = {
  /** The time of the act: the one taken at the first sending, until another is chosen or that sending wrote nothing. */
  readonly take: (chosen: string, last: LastSending, read: () => Taken | undefined) => Taken | undefined
  /** The id of one thing in the act, the same until the time is another one. */
  readonly id: (thing: string) => string
  /** The next sending is another act: the one before is known not to stand. */
  readonly renew: () => void
}

/**
 * Keeps time and ids of an act together, so that pressing again after a lost answer sends the very same act and not a later
 * one under the same id. `makeId` gives a new id.
 */
export function createSending<Taken>(makeId: () => string): Sending<Taken> {
  let held: { readonly chosen: string; readonly taken: Taken } | undefined
  // Once an answer was lost, a later refusal (signed out, say) tells nothing of the sending before it.
  let unsure = false
  const ids = new Map<string, string>()
  const begin = () => {
    held = undefined
    unsure = false
    ids.clear()
  }
  return {
    take(chosen, last, read) {
      unsure ||= held !== undefined && !wroteNothing(last)
      if (!unsure) held = undefined
      else if (held !== undefined && held.chosen !== chosen) {
        // Told otherwise by the person: another act, which must not answer to the ids of the first.
        begin()
      }
      if (held === undefined) {
        const taken = read()
        if (taken !== undefined) held = { chosen, taken }
        return taken
      }
      return held.taken
    },
    id(thing) {
      const made = ids.get(thing) ?? makeId()
      ids.set(thing, made)
      return made
    },
    renew: begin,
  }
}

/** Whether it is certain that nothing of the last sending stands. A conflict says that something does; silence says nothing. */
export function wroteNothing({ status, error }: LastSending): boolean {
  if (status === 'idle') return true
  return (
    status === 'error' &&
    error instanceof ApiProblem &&
    error.status >= 400 &&
    error.status < 500 &&
    error.code !== 'conflict'
  )
}
