import type { Assign, BulkOutcome } from '@curebook/contract/schedule'

/** A test as it stands under its lock. */
export type Assignable = {
  readonly testId: string
  readonly label: string
  readonly code: string
  readonly state: string
  readonly assigneeId: string | null
  readonly pairedId: string | null
}

export type AssignmentDecision<T extends Assignable = Assignable> = {
  /** Each asked id once, in the order asked. */
  readonly outcomes: BulkOutcome['rows']
  /** Tests whose assignee changes, the batches and specimens that go with the asked ones included. */
  readonly given: readonly T[]
}

const ended: readonly string[] = ['done', 'void', 'replaced']

/**
 * Decides row by row. A specimen and its batch go together, as far as they are not ended. Taking a begun test from somebody
 * needs a reason; giving it to whom it belongs already changes nothing.
 */
export function decideAssignments<T extends Assignable>(
  { testIds, to, reason }: Pick<Assign, 'testIds' | 'to' | 'reason'>,
  here: readonly T[],
): AssignmentDecision<T> {
  const byId = new Map(here.map((test) => [test.testId, test]))
  const given = new Map<string, T>()
  const outcomes = [...new Set(testIds)].map((id): BulkOutcome['rows'][number] => {
    const asked = byId.get(id)
    if (!asked) return refused(id, 'There is no such test in this laboratory.')
    const pair = [
      asked,
      ...(asked.pairedId === null ? [] : [byId.get(asked.pairedId)].filter((test) => test !== undefined)),
    ]
    if (ended.includes(asked.state))
      return refused(id, `${asked.label} (${asked.code}) is ${wordOf(asked.state)}: there is nothing left to do.`)
    const open = pair.filter((test) => !ended.includes(test.state) && test.assigneeId !== to)
    const begun = pair.some(({ state }) => state === 'in-work' || state === 'done')
    const taken = open.some(({ assigneeId }) => assigneeId !== null)
    if (begun && taken && !reason)
      return refused(id, `${asked.label} (${asked.code}) is begun: give the reason why somebody else goes on.`)
    for (const test of open) given.set(test.testId, test)
    return { id, outcome: 'done', sentence: null }
  })
  return { outcomes, given: [...given.values()] }
}

function refused(id: string, sentence: string): BulkOutcome['rows'][number] {
  return { id, outcome: 'refused', sentence }
}

function wordOf(state: string): string {
  return state === 'done' ? 'finished' : state === 'void' ? 'void' : 'replaced'
}
