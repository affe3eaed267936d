import type {
  Assign,
  AssignmentCheck,
  AssignmentConflicts,
  BulkOutcome,
  Schedule,
  ScheduleRow,
} from '@curebook/contract/schedule'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { NoticesService } from '#features/notices/notices.service'
import type { Actor } from '#platform/actor'
import { runOnce } from '#platform/idempotency'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { invalidField } from '#platform/problem'
import { personName } from '#platform/row-values'
import { rowsSql, rowsSqlOf } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import { checkAssignment } from './assignment-check.ts'
import { type AssignmentDecision, decideAssignments } from './assignment-rules.ts'
import { findHeld, findWaiting } from './held.repository.ts'
import { countsOf, toScheduleRows } from './schedule.mapper.ts'
import {
  type AssignableTest,
  findAssignable,
  findOpenTests,
  findPairs,
  insertAssignments,
} from './schedule.repository.ts'

export type ScheduleService = ReturnType<typeof createScheduleService>

/** Who does what by when, and giving tests to people. */
export function createScheduleService({
  laboratory,
  methods,
  notices,
}: {
  laboratory: Laboratory
  methods: readonly MethodDeclaration[]
  notices: Pick<NoticesService, 'tellOfAssignments'>
}) {
  /** Gives tests inside a transaction, also another feature's: the same locks, rules, entries and notices. */
  async function give(tx: LaboratoryTransaction, input: Assign): Promise<BulkOutcome> {
    await assertAssignable(tx, input.to)
    const decision = decideAssignments(input, await findPairs(tx, input.testIds, { lock: true }))
    const made = await write(tx, input, decision)
    await notices.tellOfAssignments(tx, made, { to: input.to, reason: input.reason || null })
    return { rows: decision.outcomes }
  }

  return {
    read: (actor: Actor): Promise<Schedule> =>
      laboratory.inLaboratorySql(actor, async (raw) => {
        const sql = rowsSql(raw)
        // Sent together: three answers for one way to the database and back.
        const [tests, { zone, ...waiting }, people] = await Promise.all([
          findOpenTests(sql),
          findWaiting(sql),
          findAssignable(sql),
        ])
        const { held, elsewhere } = await findHeld(sql, waiting)
        const rows = toScheduleRows(tests, held, methods, sql.at)
        return {
          now: sql.at.toISOString(),
          rows,
          counts: { ...countsOf(rows, zone, sql.at), decisionsElsewhere: elsewhere },
          people: people.map((person) => ({
            ...personName(person),
            assigned: rows.filter(({ assignee, stepKey }) => stepKey !== null && assignee?.membershipId === person.id)
              .length,
          })),
        }
      }),

    /** What speaks against giving these tests to this person, for the confirmation; changes nothing. */
    check: (actor: Actor, input: AssignmentCheck): Promise<AssignmentConflicts> =>
      laboratory.inLaboratory(actor, async (tx) => {
        await assertAssignable(tx, input.to)
        return checkAssignment(tx, input, methods)
      }),

    /**
     * Gives tests to a person, or takes them back (`to` null); a specimen's batch goes with it. Rows that cannot be given are
     * reported, the others go on. Who has them now and who had them are told.
     * @param key Idempotency-Key
     */
    assign: (actor: Actor, input: Assign, key?: string): Promise<BulkOutcome> =>
      runOnce(laboratory, actor, {
        key,
        route: 'assignment:create',
        input,
        work: (tx) => give(tx, input),
      }),

    give,
    /** Holds these tests with what goes with them, so that nobody gives them meanwhile; `give` takes the same locks again. */
    hold: async (tx: LaboratoryTransaction, testIds: readonly string[]): Promise<void> => {
      await findPairs(tx, testIds, { lock: true })
    },
    /** What speaks against it, inside another feature's transaction. */
    conflicts: async (tx: LaboratoryTransaction, input: AssignmentCheck): Promise<AssignmentConflicts> => {
      await assertAssignable(tx, input.to)
      return checkAssignment(tx, input, methods)
    },
    /** A person's tests that are begun, or whose window is open or has closed. */
    running: async (tx: LaboratoryTransaction, membershipId: string): Promise<ScheduleRow[]> =>
      toScheduleRows(await findOpenTests(rowsSqlOf(tx)), [], methods, tx.at).filter(
        ({ assignee, started, urgency }) =>
          assignee?.membershipId === membershipId && (started || ['late', 'closing', 'open'].includes(urgency)),
      ),
  }
}

async function assertAssignable(tx: LaboratoryTransaction, to: string | null): Promise<void> {
  if (to === null || (await findAssignable(rowsSqlOf(tx))).some(({ id }) => id === to)) return
  throw invalidField(
    'to',
    'This person cannot be given tests: choose a technician, engineer or manager of this laboratory.',
  )
}

async function write(
  tx: LaboratoryTransaction,
  { to, reason }: Assign,
  { given }: AssignmentDecision<AssignableTest>,
): Promise<readonly { assignmentId: string; from: string | null }[]> {
  if (given.length === 0) return []
  const rows = given.map((test) => ({
    id: newId(),
    testId: test.testId,
    toMemberId: to,
    supersedesId: test.assignmentId,
    reason: test.assignmentId === null ? null : reason || 'Changed before it was begun',
  }))
  await insertAssignments(tx, rows, to)
  rows.forEach((row, index) => {
    const { projectId, designId } = given[index]!
    tx.record({
      action: 'assignment:create',
      subjectKind: 'test',
      subjectId: row.testId,
      projectId,
      topics: ['schedule', 'bench', `test:${row.testId}`, ...(designId === null ? [] : [`design:${designId}`])],
      content: { ...row, from: given[index]!.assigneeId },
    })
  })
  return rows.map(({ id }, index) => ({ assignmentId: id, from: given[index]!.assigneeId }))
}
