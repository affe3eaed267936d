import type { HandedTest, HandOver, OfferedHandOver, OfferHandOver, TakeHandOver } from '@curebook/contract/hand-overs'
import type { BulkOutcome } from '@curebook/contract/schedule'
import type { ScheduleService } from '#features/schedule/schedule.service'
import type { Actor } from '#platform/actor'
import type { AttemptLimits } from '#platform/attempt-limits'
import type { Origin } from '#platform/auth'
import { codeSquare } from '#platform/code-square'
import { type Created, createOnce } from '#platform/creation'
import { runOnce } from '#platform/idempotency'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError } from '#platform/problem'
import { personName } from '#platform/row-values'
import { rowsSqlOf } from '#platform/sql-rows'
import { hashOf, newCode, plainCode } from '#platform/typed-code'
import {
  findByHash,
  findHandOver,
  findStandsIn,
  type HandOverRow,
  insertHandOver,
  insertTaken,
  lastOfferOf,
  lockHandOvers,
} from './hand-overs.repository.ts'

export type HandOversService = ReturnType<typeof createHandOversService>

/** How long a code can be scanned: two people stand beside each other. Common practice, no source. */
const codeMinutes = 10
const reason = 'Handed over at shift change'

const refused = (code: 'not-found' | 'expired' | 'wrong-state', message: string) =>
  new AppError(code, message, { errors: [{ path: 'code', message }] })

/** Running work goes from one person to the next by a code that one shows and the other takes, once. */
export function createHandOversService({
  laboratory,
  limits,
  schedule,
}: {
  laboratory: Laboratory
  limits: Pick<AttemptLimits, 'countAddress'>
  schedule: Pick<ScheduleService, 'give' | 'hold' | 'conflicts' | 'running'>
}) {
  async function testsOf(tx: LaboratoryTransaction, membershipId: string): Promise<HandedTest[]> {
    const rows = await schedule.running(tx, membershipId)
    const standsIn = await findStandsIn(
      rowsSqlOf(tx),
      rows.map(({ testId }) => testId),
    )
    return rows.map(
      ({ testId, code, label, designName, methodName, stepTitle, opensAt, closesAt, urgency, started }) => ({
        ...{ testId, code, label, designName, methodName, stepTitle, opensAt, closesAt, urgency, started },
        standsIn: standsIn.get(testId) ?? null,
      }),
    )
  }

  /** The offer behind a code that holds, for somebody else than who made it. */
  async function holding(tx: LaboratoryTransaction, code: string): Promise<HandOverRow> {
    const found = await findByHash(tx, hashOf(plainCode(code)))
    if (!found) throw refused('not-found', 'Nobody hands over work under this code. Compare it sign by sign.')
    if (found.byId === tx.actor.membershipId)
      throw refused('wrong-state', 'This is your own code: whoever takes your work on scans it on their own Bench.')
    if (found.taken) throw refused('expired', `${found.taken.by.name} took this work on already: a code serves once.`)
    if (found.expiresAt <= tx.at || (await lastOfferOf(tx, found.byId)) !== found.id)
      throw refused('expired', `This code no longer holds. Ask ${found.by.name} to show a new one.`)
    return found
  }

  return {
    /** Offers all that is begun or due; the code is shown in this answer alone, and one shown before holds no more. */
    offer(actor: Actor, input: OfferHandOver): Promise<Created<OfferedHandOver>> {
      const code = newCode()
      return createOnce<OfferedHandOver>(laboratory, actor, {
        subjectKind: 'hand-over',
        id: input.id,
        input,
        find: async (tx) => {
          const stored = await findHandOver(tx, input.id)
          if (!stored || stored.byId !== actor.membershipId) return null
          const expiresAt = stored.expiresAt.toISOString()
          return { id: input.id, code: null, square: null, expiresAt, tests: await testsOf(tx, actor.membershipId) }
        },
        create: async (tx) => {
          await lockHandOvers(tx, actor.membershipId)
          const tests = await testsOf(tx, actor.membershipId)
          if (tests.length === 0)
            throw new AppError('wrong-state', 'Nothing of yours is begun or due: there is nothing to hand over.')
          const expiresAt = new Date(tx.at.getTime() + codeMinutes * 60_000)
          await insertHandOver(tx, { id: input.id, hash: code.hash, expiresAt })
          tx.record({
            action: 'hand-over:create',
            subjectKind: 'hand-over',
            subjectId: input.id,
            topics: [],
            content: { codeUntil: expiresAt.toISOString(), tests: tests.map(({ testId }) => testId) },
          })
          // A scanner types what it reads: no address, and no dash, which is another key in other layouts.
          const square = codeSquare(plainCode(code.shown))
          return { id: input.id, code: code.shown, square, expiresAt: expiresAt.toISOString(), tests }
        },
      })
    },

    /** What whoever typed the code would get; attempts are counted for the address before the code is looked at. */
    async lookUp(actor: Actor, code: string, { address }: Pick<Origin, 'address'>): Promise<HandOver> {
      await limits.countAddress(address)
      return laboratory.inLaboratory(actor, async (tx) => {
        const offer = await holding(tx, code)
        const tests = await testsOf(tx, offer.byId)
        const testIds = tests.map(({ testId }) => testId)
        const { conflicts } =
          testIds.length === 0 ? { conflicts: [] } : await schedule.conflicts(tx, { testIds, to: actor.membershipId })
        return {
          from: personName(offer.by),
          expiresAt: offer.expiresAt.toISOString(),
          tests,
          notAuthorised: conflicts.flatMap((conflict) =>
            conflict.kind === 'not-authorised'
              ? [{ sentence: conflict.sentence, testIds: conflict.tests.map(({ id }) => id) }]
              : [],
          ),
        }
      })
    },

    /**
     * The chosen tests become the taker's in one transaction, with one reason, as an assignment makes them. What the other
     * has finished or given away since is reported and stays where it is.
     */
    async take(
      actor: Actor,
      input: TakeHandOver,
      { address }: Pick<Origin, 'address'>,
      key: string,
    ): Promise<BulkOutcome> {
      await limits.countAddress(address)
      return runOnce(laboratory, actor, {
        key,
        route: 'hand-over:take',
        input,
        work: async (tx) => {
          const found = await holding(tx, input.code)
          await lockHandOvers(tx, found.byId)
          // Under the lock: of two who scanned it, the second one is told who was first.
          const offer = await holding(tx, input.code)
          // Held before it is looked whose they are: what a manager gives to somebody else at this moment is theirs.
          await schedule.hold(tx, input.testIds)
          const running = new Set((await schedule.running(tx, offer.byId)).map(({ testId }) => testId))
          const testIds = input.testIds.filter((id) => running.has(id))
          const { rows } =
            testIds.length === 0 ? { rows: [] } : await schedule.give(tx, { testIds, to: actor.membershipId, reason })
          if (!rows.some(({ outcome }) => outcome === 'done'))
            throw new AppError(
              'wrong-state',
              `Nothing of this is ${offer.by.name}’s running work any more. Look at it again.`,
            )
          await insertTaken(tx, offer.id)
          tx.record({
            action: 'hand-over:take',
            subjectKind: 'hand-over',
            subjectId: offer.id,
            topics: [],
            content: { from: offer.byId, tests: testIds },
          })
          const gone = input.testIds.filter((id) => !running.has(id))
          return {
            rows: [
              ...rows,
              ...gone.map((id) => ({
                id,
                outcome: 'refused' as const,
                sentence: `It is not ${offer.by.name}’s running work any more.`,
              })),
            ],
          }
        },
      })
    },
  }
}
