import type { CorrectAct } from '@curebook/contract/bench'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { progressOf, type RecordedEvent } from '@curebook/trade/procedure/progress'
import type { Actor } from '#platform/actor'
import { twice } from '#platform/database-errors'
import type { Laboratory } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { rowsSql } from '#platform/sql-rows'
import { carryEquipment, findAct, type StoredAct } from './act-corrections.repository.ts'
import { refuseEnded } from './ending.service.ts'
import { holdReadAlready } from './equipment-holds.ts'
import { tellTime } from './event-time.ts'
import { lockedTest } from './readings.service.ts'
import { methodOf, settleTests, type SettleContext } from './settle.ts'
import { changedStays, judgeChanged } from './stay-changes.ts'
import { insertStepEvent } from './step-events.repository.ts'
import { recordedEvents, takenReadings, type TestRecord } from './test-record.ts'
import { topicsOf } from './topics.ts'

export type ActCorrectionsService = ReturnType<typeof createActCorrectionsService>

/**
 * Puts a start or end at the time at which it really happened: another takes its place, the first stays on record. Windows are
 * judged anew, and what stood in an oven or bath longer or shorter than was believed is held against its log.
 */
export function createActCorrectionsService({
  laboratory,
  methods,
  build,
}: { laboratory: Laboratory } & SettleContext) {
  function correct(actor: Actor, testId: string, actId: string, input: CorrectAct): Promise<void> {
    return twice(() =>
      laboratory.inLaboratorySql(actor, async (raw) => {
        const sql = rowsSql(raw)
        const record = await lockedTest(sql, testId)
        const act = await findAct(sql, actId)
        if (act?.testId !== testId) throw notFound('act')
        const told = tellTime(input.time, sql.at)
        const again = await findAct(sql, input.id)
        if (again) return refuseOther(again, act, input, told.eventAt)
        refuseEnded(record)
        if (act.superseded)
          throw new AppError('conflict', 'This time was put right meanwhile. Look at the one that stands.', {
            extra: { sent: input },
          })
        refuseOutOfOrder(record, act, told.effectiveAt)
        const method = methodOf(methods, record.methodKey)
        const before = recordedEvents(record)
        const after = before.map((event) =>
          event.step === act.stepKey && event.act === act.kind
            ? { ...event, at: told.effectiveAt.toISOString() }
            : event,
        )
        refuseTooSoon(method, record, before, after)
        const row = await insertStepEvent(sql, {
          id: input.id,
          testId,
          stepKey: act.stepKey,
          kind: act.kind,
          loadId: act.loadId,
          told,
          note: told.note,
          supersedesId: act.id,
          reason: input.reason,
        })
        const held = []
        for (const instrument of await carryEquipment(sql, act.id, input.id))
          held.push(
            ...(await holdReadAlready(sql, {
              record,
              method,
              stepKey: act.stepKey,
              instrument,
              at: told.effectiveAt,
            })),
          )
        const [settled] = await settleTests(sql, { methods, build }, [testId], `Time put right: ${input.reason}`)
        sql.record({
          action: 'step-event:correct',
          subjectKind: 'step_event',
          subjectId: input.id,
          projectId: record.projectId,
          topics: [...topicsOf(record), 'loads'],
          content: { supersedes: act.id, reason: input.reason },
          rows: [row, ...held, ...settled!.rows],
        })
        await judgeChanged(sql, methods, changedStays(method, testId, before, after))
      }),
    )
  }

  return { correct }
}

function refuseOther(stored: StoredAct, act: StoredAct, sent: CorrectAct, eventAt: Date): void {
  const isSame =
    stored.supersedesId === act.id && stored.reason === sent.reason && stored.eventAt.getTime() === eventAt.getTime()
  if (!isSame)
    throw new AppError('conflict', 'Another act stands under this id. Send the correction under an id of its own.', {
      extra: { sent },
    })
}

/** A step ends no earlier than it starts. */
function refuseOutOfOrder({ events }: TestRecord, { stepKey, kind }: StoredAct, at: Date): void {
  const other = events.find((event) => event.step === stepKey && event.kind !== kind)
  if (!other) return
  const isWrong = kind === 'start' ? at.getTime() > Date.parse(other.at) : at.getTime() < Date.parse(other.at)
  if (isWrong)
    throw invalidField(
      'time.eventAt',
      kind === 'start'
        ? 'This step ended before that. Give the time at which it started, or put the end right first.'
        : 'This step started after that. Give the time at which it ended, or put the start right first.',
    )
}

/**
 * What may not be begun before another step is done cannot have been: the reading of that step would be no reading of it. What
 * stood so already before the correction is not held against it.
 */
function refuseTooSoon(
  method: MethodDeclaration,
  record: TestRecord,
  before: readonly RecordedEvent[],
  after: readonly RecordedEvent[],
): void {
  const soonOf = (events: readonly RecordedEvent[]) =>
    progressOf(method, events, takenReadings(record)).steps.filter(({ beganTooSoon }) => beganTooSoon)
  const known = new Set(soonOf(before).map(({ key }) => key))
  const [wrong] = soonOf(after).filter(({ key }) => !known.has(key))
  if (!wrong) return
  const step = method.steps.find(({ key }) => key === wrong.key)!
  const titleOf = (key: string) => `“${method.steps.find((other) => other.key === key)?.title ?? key}”`
  const needed = (step.needs ?? []).map(titleOf).join(' and ')
  throw invalidField(
    'time.eventAt',
    `“${step.title}” would have begun before ${needed} was done. Give the time at which it happened.`,
  )
}
