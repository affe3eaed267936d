import type { AssignmentCheck, AssignmentConflicts } from '@curebook/contract/schedule'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { rowsSqlOf } from '#platform/sql-rows'
import { bindingConflicts, conflictsOf } from './assignment-conflicts.ts'
import { type Assignable, decideAssignments } from './assignment-rules.ts'
import { toScheduleRows } from './schedule.mapper.ts'
import { findOpenTests, findPairs, findWorkingTimes } from './schedule.repository.ts'

/** What speaks against an assignment, before it is made. Reads only: what changes until the confirmation is judged there again. */
export async function checkAssignment(
  tx: LaboratoryTransaction,
  { testIds, to }: AssignmentCheck,
  methods: readonly MethodDeclaration[],
): Promise<AssignmentConflicts> {
  const sql = rowsSqlOf(tx)
  const here = await findPairs(tx, testIds, { lock: false })
  // With a reason, only what cannot be given at all is refused; what needs one is what is refused beyond that.
  const withReason = decideAssignments({ testIds, to, reason: 'asked' }, here)
  const without = decideAssignments({ testIds, to }, here)
  const refused = refusedIn(withReason.outcomes)
  const needReason = [...refusedIn(without.outcomes)].filter((id) => !refused.has(id))
  const binding = bindingConflicts(withReason, needReason, here)
  if (to === null) return { conflicts: [...binding] }
  const rows = toScheduleRows(await findOpenTests(sql), [], methods, tx.at)
  const asked = new Set(testIds.flatMap((id) => [id, pairOf(here, id)]))
  const planned = {
    given: rows.filter(({ testId }) => asked.has(testId) && !refused.has(testId)),
    theirs: rows.filter(({ testId, assignee }) => !asked.has(testId) && assignee?.membershipId === to),
  }
  return { conflicts: [...binding, ...conflictsOf(planned, await findWorkingTimes(sql), tx.at)] }
}

function refusedIn(outcomes: readonly { id: string; outcome: string }[]): ReadonlySet<string> {
  return new Set(outcomes.filter(({ outcome }) => outcome === 'refused').map(({ id }) => id))
}

/** A batch stands on the schedule in the row of its specimen. */
function pairOf(here: readonly Assignable[], id: string): string | null {
  return here.find(({ testId }) => testId === id)?.pairedId ?? null
}
