import type { PostedReading, WithdrawReading } from '@curebook/contract/bench'
import { refuseKnownDrawIn } from '#features/custody/draws.service'
import type { Actor } from '#platform/actor'
import { digestOf } from '#platform/canonical-json'
import { twice } from '#platform/database-errors'
import type { Laboratory } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { rowsSql } from '#platform/sql-rows'
import { refuseEnded } from './ending.service.ts'
import { tellTime, type Told } from './event-time.ts'
import { postedReading } from './posted-reading.ts'
import { correctedMeanwhile, lockedTest } from './readings.service.ts'
import { settleAgain, settleTests, type SettleContext } from './settle.ts'
import type { TestRecord } from './test-record.ts'
import { topicsOf } from './topics.ts'
import { findEntered, findWithdrawal, insertWithdrawal, type WithdrawnReading } from './withdrawals.repository.ts'

export type WithdrawalsService = ReturnType<typeof createWithdrawalsService>

/**
 * The bench offers it for 10 seconds. Held against when the reading reached the server, a minute leaves room for a slow line
 * and for clocks that are not quite together (an offset beyond it is doubted elsewhere too). Our own choice, no source.
 */
const withdrawnWithinMs = 60_000
/**
 * How much earlier than its own reading a withdrawal may seem: each message has its own way to the server, which its offset
 * takes for the clock. As long as a line may be slow; our own choice, no source.
 */
const clockLeewayMs = 60_000
const reason = 'Mistyped'

/**
 * Takes back a reading right after it was entered. Nothing is deleted: the reading stays, struck through, its slot is open
 * and the next one stands in its place. Later, others have seen the number, and another value is owed: a correction.
 */
export function createWithdrawalsService({ laboratory, methods, build }: { laboratory: Laboratory } & SettleContext) {
  const context = { methods, build }

  async function withdraw(
    actor: Actor,
    readingId: string,
    input: WithdrawReading,
  ): Promise<{ created: boolean; value: PostedReading }> {
    return twice(() =>
      laboratory.inLaboratorySql(actor, async (raw) => {
        const sql = rowsSql(raw)
        const entered = await findEntered(sql, readingId)
        if (!entered?.testId) throw notFound('reading')
        const record = await lockedTest(sql, entered.testId)
        const requestDig = digestOf({ ...input, time: { ...input.time, sentAt: undefined }, readingId })
        const stored = await findWithdrawal(sql, { readingId, id: input.id })
        if (stored) {
          if (stored.id !== input.id || Buffer.compare(Buffer.from(stored.requestDig), requestDig) !== 0)
            throw new AppError('conflict', `This reading was withdrawn already, by ${stored.by}. Its slot is open.`)
          const settled = await settleAgain(sql, context, record)
          return { created: false, value: await postedReading(sql, context, settled, readingId) }
        }
        if (!record.slots.some((slot) => slot.readingId === readingId))
          throw await correctedMeanwhile(sql, record, readingId, input)
        refuseEnded(record)
        if (input.time.eventFrom !== 'now')
          throw invalidField('time.eventFrom', 'A reading is taken back when it is pressed: send the time as “now”.')
        const told = tellTime(input.time, sql.at)
        refuseLate(entered, record, told, actor)
        const row = await insertWithdrawal(sql, {
          id: input.id,
          readingId,
          testId: record.id,
          reason,
          requestDig,
          told,
        })
        const [settled] = await settleTests(sql, context, [record.id], `Reading withdrawn: ${reason}`)
        const drew = await refuseKnownDrawIn(sql, readingId)
        sql.record({
          action: 'reading:withdraw',
          subjectKind: 'reading',
          subjectId: readingId,
          projectId: record.projectId,
          topics: [...topicsOf(record, settled!.casts), ...(drew ? ['materials'] : [])],
          content: { withdrawal: input.id, reason },
          rows: [row, ...settled!.rows],
        })
        return { created: true, value: await postedReading(sql, context, settled!, readingId) }
      }),
    )
  }

  return { withdraw }
}

/** Judged by when it was pressed, as told and put right by the device's offset: one that waited on the device is not late for it. */
function refuseLate(entered: WithdrawnReading, record: TestRecord, told: Told, actor: Actor): void {
  const pressedAt = told.effectiveAt
  if (entered.byId !== actor.membershipId)
    throw new AppError(
      'refused-by-rule',
      'Only who entered a reading takes it back. If it is wrong, correct it with a reason.',
    )
  if (pressedAt.getTime() > entered.receivedAt.getTime() + withdrawnWithinMs)
    throw new AppError(
      'refused-by-rule',
      'A reading is taken back within a minute of being entered. Correct this one instead, with a reason.',
    )
  // A message that hung for minutes makes its reading later than it was. By the clock of the device alone the two stand in
  // order all the same.
  if (pressedAt.getTime() < entered.toldAt.getTime() - clockLeewayMs && told.eventAt < entered.eventAt)
    throw invalidField('time.eventAt', 'This lies before the reading itself: give the time at which it was taken back.')
  if (record.events.some(({ receivedAt }) => receivedAt > entered.receivedAt.toISOString()))
    throw new AppError(
      'refused-by-rule',
      'An act was confirmed on this test after the reading and rests on it. Correct the reading instead, with a reason.',
    )
}
