import type { SettledPutIn, SettlePutIn } from '@curebook/contract/put-in'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { rowsSqlOf } from '#platform/sql-rows'
import { judgeList } from './put-in-faults.ts'
import { findSettled, findSettledRuns, insertList, lockLists } from './put-in-lists.repository.ts'
import { soakingMethod, soakOfTests, whereTheyStand } from './put-in-standing.ts'
import { findBreaks, findMachines, findPutInTests } from './put-in.repository.ts'

/** Settles a put-in list under a lock on the laboratory's lists: what meets a break or a run settled elsewhere is refused by row. */
export function settleList(
  { laboratory, methods }: { laboratory: Laboratory; methods: readonly MethodDeclaration[] },
  actor: Actor,
  input: SettlePutIn,
) {
  const { designId, methodKey, id } = input
  // Refused before anything is looked up.
  soakingMethod(methods, methodKey)
  return createOnce<SettledPutIn>(laboratory, actor, {
    subjectKind: 'put-in-list',
    id,
    input,
    find: (tx) => findSettled(rowsSqlOf(tx), { designId, methodKey, id }),
    create: async (tx) => {
      await lockLists(tx)
      await refuseSuperseded(tx, input)
      const mustStartAt = await judged(tx, input, methods)
      await insertList(tx, input, mustStartAt)
      const { projectId } = await tx.prisma.design.findUniqueOrThrow({
        where: { labId_id: { labId: actor.labId, id: designId } },
        select: { projectId: true },
      })
      tx.record({
        action: 'put-in:settle',
        subjectKind: 'put-in-list',
        subjectId: id,
        projectId,
        topics: ['put-in', `design:${designId}`],
        content: {
          ...{ design: designId, method: methodKey, instrument: input.instrumentId, runMinutes: input.runMinutes },
          supersedes: input.supersedes && { id: input.supersedes.id, reason: input.supersedes.reason ?? null },
          list: input.rows.map(({ testId, putInAt, startAt }) => ({ test: testId, putInAt, startAt })),
        },
      })
      return (await findSettled(rowsSqlOf(tx), { designId, methodKey, id }))!
    },
  })
}

/** Under the lock: of two lists settled at once for one design the second is told of the first. */
async function refuseSuperseded(tx: LaboratoryTransaction, input: SettlePutIn): Promise<void> {
  const { designId, methodKey } = input
  const stored = await findSettled(rowsSqlOf(tx), { designId, methodKey })
  if ((stored?.id ?? null) === (input.supersedes?.id ?? null)) return
  throw new AppError(
    'conflict',
    stored
      ? `${stored.by.name} settled another list meanwhile. Look at it, then settle this one in its place.`
      : 'No such list stands here. Look at the list again.',
    { extra: { stored, sent: input } },
  )
}

/** @returns until when each row must start */
async function judged(
  tx: LaboratoryTransaction,
  input: SettlePutIn,
  methods: readonly MethodDeclaration[],
): Promise<readonly Date[]> {
  const sql = rowsSqlOf(tx)
  const { method, window, kind, runs } = soakingMethod(methods, input.methodKey)
  const tests = await findPutInTests(sql, { ...input, run: window.step })
  if (tests.length === 0) throw notFound('design with specimens to put in')
  const machine = (await findMachines(sql, kind)).some(({ id }) => id === input.instrumentId)
  if (input.instrumentId !== null && !machine)
    throw invalidField('instrumentId', 'This machine is not in service here: choose another.')
  const { waiting, soaking } = whereTheyStand(tests, method, window)
  const { earliestMinutes, latestMinutes } = soakOfTests(window, tests)
  const { faults, mustStartAt } = judgeList(input, {
    waiting: new Map(waiting.map(({ testId, label }) => [testId, label])),
    soaking: new Map(
      soaking.map(({ testId, label, mayStartAt, mustStartAt: must }) => [
        testId,
        { label, mayStart: Date.parse(mayStartAt), mustStart: Date.parse(must) },
      ]),
    ),
    soak: { earliestMs: earliestMinutes * 60_000, latestMs: latestMinutes * 60_000 },
    ...(await findBreaks(sql)),
    elsewhere: await findSettledRuns(sql, { ...input, runs }),
  })
  if (faults.length > 0) throw new AppError('invalid-input', faults[0]!.message, { errors: [...faults] })
  return mustStartAt
}
