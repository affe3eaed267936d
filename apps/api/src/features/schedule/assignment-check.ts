import type { AssignmentCheck, AssignmentConflict, AssignmentConflicts, ScheduleRow } from '@curebook/contract/schedule'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { notAuthorisedIn } from '#features/people/authorised.service'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { dayIn } from '#platform/laboratory-day'
import { type RowsSql, rowsSqlOf } from '#platform/sql-rows'
import { bindingConflicts, conflictsOf } from './assignment-conflicts.ts'
import { type Assignable, decideAssignments } from './assignment-rules.ts'
import { toScheduleRows } from './schedule.mapper.ts'
import { findAssignable, findOpenTests, findPairs, findWorkingTimes } from './schedule.repository.ts'

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
  const times = await findWorkingTimes(sql)
  return {
    conflicts: [
      ...binding,
      ...(await notAuthorisedFor(sql, planned.given, { to, zone: times.zone, methods })),
      ...conflictsOf(planned, times, tx.at),
    ],
  }
}

/** Rows of methods for which the person is not authorised on the day of the next act (today where it has none). */
async function notAuthorisedFor(
  sql: RowsSql,
  rows: readonly ScheduleRow[],
  { to, zone, methods }: { to: string; zone: string; methods: readonly MethodDeclaration[] },
): Promise<AssignmentConflict[]> {
  const name = (await findAssignable(sql)).find(({ id }) => id === to)?.name ?? ''
  const dayOf = ({ closesAt, urgency }: ScheduleRow) =>
    dayIn(zone, closesAt === null || urgency === 'late' ? sql.at : new Date(closesAt))
  const asked = new Map<string, ScheduleRow[]>()
  for (const row of rows) {
    const key = `${row.methodKey} ${dayOf(row)}`
    asked.set(key, [...(asked.get(key) ?? []), row])
  }
  const found = new Map<string, ScheduleRow[]>()
  for (const [key, own] of asked) {
    const [methodKey, day] = key.split(' ') as [string, string]
    const label = methodByKey(methods, methodKey)?.name ?? methodKey
    const sentence = await notAuthorisedIn(sql, { membershipId: to, name, activity: `method:${methodKey}`, label, day })
    if (sentence !== null) found.set(sentence, [...(found.get(sentence) ?? []), ...own])
  }
  return [...found].map(([sentence, own]) => ({
    kind: 'not-authorised',
    sentence,
    tests: own.map(({ testId, label, code }) => ({ id: testId, label, code })),
  }))
}

function refusedIn(outcomes: readonly { id: string; outcome: string }[]): ReadonlySet<string> {
  return new Set(outcomes.filter(({ outcome }) => outcome === 'refused').map(({ id }) => id))
}

/** A batch stands on the schedule in the row of its specimen. */
function pairOf(here: readonly Assignable[], id: string): string | null {
  return here.find(({ testId }) => testId === id)?.pairedId ?? null
}
