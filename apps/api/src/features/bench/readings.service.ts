import type { CorrectReading, PostedReading, PostReading } from '@curebook/contract/bench'
import type { MethodDeclaration, ReadingDeclaration } from '@curebook/trade/procedure/declaration'
import { checkReading } from '@curebook/trade/procedure/reading-check'
import type { Actor } from '#platform/actor'
import { digestOf } from '#platform/canonical-json'
import { isUniqueViolation } from '#platform/database-errors'
import type { Laboratory } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { isWeighedAgain } from './correction-reason.ts'
import { holdUnfit } from './holds.ts'
import { postedReading } from './posted-reading.ts'
import { tellTime } from './event-time.ts'
import { readingViews } from './reading-view.ts'
import {
  findInstrument,
  findReading,
  hasAttachment,
  insertReading,
  type InstrumentAtHand,
} from './readings.repository.ts'
import { methodOf, settleTests, type SettleContext } from './settle.ts'
import { rowsSql, type RowsSql } from '#platform/sql-rows'
import type { TestRecord } from './test-record.ts'
import { loadTests } from './test-record.repository.ts'
import { topicsOf } from './topics.ts'

export type ReadingsService = ReturnType<typeof createReadingsService>
type Posted = { created: boolean; value: PostedReading }

/**
 * Takes readings: every one is kept as typed. The test's row is locked first, so that two people on one step, or a test's
 * last two readings at once, follow one another and lose nothing.
 */
export function createReadingsService({ laboratory, methods, build }: { laboratory: Laboratory } & SettleContext) {
  const context = { methods, build }

  async function post(actor: Actor, testId: string, input: PostReading): Promise<Posted> {
    return twice(() =>
      laboratory.inLaboratorySql(actor, async (raw) => {
        const sql = rowsSql(raw)
        const record = await lockedTest(sql, testId)
        const requestDig = digestOf({ ...input, time: { ...input.time, sentAt: undefined }, testId })
        const stored = await findReading(sql, input.id)
        if (stored) return answerAgain(sql, context, record, input, stored, requestDig)
        const method = methodOf(methods, record.methodKey)
        const { declaration } = declared(method, input)
        const taken = record.slots.find(
          ({ step, key, repeat }) => step === input.stepKey && key === input.key && repeat === input.repeat,
        )
        if (taken) throw await slotTaken(sql, record, taken.readingId, declaration.label, input)
        const instrument = input.instrumentId ? await instrumentOf(sql, input.instrumentId) : null
        const told = tellTime(input.time, sql.at)
        if (input.attachmentId && !(await hasAttachment(sql, input.attachmentId)))
          throw invalidField('attachmentId', 'There is no such file in this laboratory: attach it again.')
        const row = await insertReading(sql, {
          ...valueOf(declaration, input.typed, instrument),
          id: input.id,
          testId,
          stepKey: input.stepKey,
          key: input.key,
          repeat: input.repeat,
          instrumentId: instrument?.id ?? null,
          calibrationId: instrument?.calibrationId ?? null,
          deviceId: input.deviceId,
          attachmentId: input.attachmentId ?? null,
          confirmedOdd: input.confirmedOdd,
          requestDig,
          supersedesId: null,
          reason: null,
          told,
          actedAt: told.effectiveAt,
        })
        const held = await holdUnfit(sql, {
          record,
          method,
          readingId: input.id,
          instrument,
          actedAt: told.effectiveAt,
          toldAt: told.effectiveAt,
          slipOf: null,
        })
        const [settled] = await settleTests(sql, context, [testId], 'A reading was added')
        sql.record({
          action: 'reading:create',
          subjectKind: 'reading',
          subjectId: input.id,
          projectId: record.projectId,
          topics: topicsOf(record),
          rows: [row, ...held, ...settled!.rows],
        })
        return { created: true, value: await postedReading(sql, context, settled!, input.id) }
      }),
    )
  }

  /** Another reading takes the place of one that stands; the first stays, struck through, with who, when and why. */
  async function correct(actor: Actor, readingId: string, input: CorrectReading): Promise<Posted> {
    return twice(() =>
      laboratory.inLaboratorySql(actor, async (raw) => {
        const sql = rowsSql(raw)
        const corrected = await findReading(sql, readingId)
        if (!corrected?.testId) throw notFound('reading')
        const { testId, instrumentId, calibrationId } = corrected
        const record = await lockedTest(sql, testId)
        const requestDig = digestOf({ ...input, time: { ...input.time, sentAt: undefined }, readingId })
        const stored = await findReading(sql, input.id)
        if (stored) return answerAgain(sql, context, record, input, stored, requestDig)
        const slot = record.slots.find((candidate) => candidate.readingId === readingId)
        if (!slot) throw await correctedMeanwhile(sql, record, readingId, input)
        const method = methodOf(methods, record.methodKey)
        const { declaration } = declared(method, {
          stepKey: slot.step,
          key: slot.key,
          repeat: slot.repeat,
        })
        const told = tellTime(input.time, sql.at)
        const instrument = instrumentId ? await instrumentOf(sql, instrumentId) : null
        const again = isWeighedAgain(input.reason)
        const actedAt = again ? told.effectiveAt : new Date(slot.at)
        const row = await insertReading(sql, {
          ...valueOf(declaration, input.typed, instrument),
          id: input.id,
          testId,
          stepKey: slot.step,
          key: slot.key,
          repeat: slot.repeat,
          instrumentId,
          calibrationId,
          deviceId: null,
          confirmedOdd: true,
          requestDig,
          supersedesId: readingId,
          reason: input.reason,
          told,
          actedAt,
        })
        const held = await holdUnfit(sql, {
          record,
          method,
          readingId: input.id,
          instrument,
          actedAt,
          toldAt: told.effectiveAt,
          slipOf: again ? null : readingId,
        })
        const [settled] = await settleTests(sql, context, [testId], `Reading corrected: ${input.reason}`)
        sql.record({
          action: 'reading:correct',
          subjectKind: 'reading',
          subjectId: input.id,
          projectId: record.projectId,
          topics: topicsOf(record),
          content: { supersedes: readingId, reason: input.reason },
          rows: [row, ...held, ...settled!.rows],
        })
        return { created: true, value: await postedReading(sql, context, settled!, input.id) }
      }),
    )
  }

  return { post, correct }
}

async function lockedTest(sql: RowsSql, testId: string): Promise<TestRecord> {
  const [record] = await loadTests(sql, [testId], { lock: true })
  if (!record) throw notFound('test')
  return record
}

/** Two with one id at the same moment: the second sees the first on its second look. */
async function twice<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work()
  } catch (error) {
    if (!isUniqueViolation(error)) throw error
    return await work()
  }
}

async function answerAgain(
  sql: RowsSql,
  context: SettleContext,
  record: TestRecord,
  input: { id: string },
  stored: { testId: string | null; requestDig: Uint8Array },
  requestDig: Buffer,
): Promise<Posted> {
  if (stored.testId !== record.id || Buffer.compare(Buffer.from(stored.requestDig), requestDig) !== 0) {
    const [reading] = await readingViews(sql, { ids: [input.id] })
    throw new AppError('conflict', 'Another reading stands under this id. Send the new one under an id of its own.', {
      extra: { stored: reading, sent: input },
    })
  }
  const [settled] = await settleTests(sql, context, [record.id], 'Settled again')
  return { created: false, value: await postedReading(sql, context, settled!, input.id) }
}

function declared(
  method: MethodDeclaration,
  { stepKey, key, repeat }: { stepKey: string; key: string; repeat: number },
): { declaration: ReadingDeclaration } {
  const step = method.steps.find((candidate) => candidate.key === stepKey)
  if (!step) throw invalidField('stepKey', `${method.name} has no step “${stepKey}”.`)
  const declaration = step.readings.find((candidate) => candidate.key === key)
  if (!declaration) throw invalidField('key', `“${step.title}” has no reading “${key}”.`)
  if (repeat > (declaration.repeats ?? 1))
    throw invalidField('repeat', `${declaration.label} is read ${declaration.repeats ?? 1} time(s) only.`)
  return { declaration }
}

function valueOf(declaration: ReadingDeclaration, typed: string, instrument: InstrumentAtHand | null) {
  const capacity = instrument?.range && instrument.unit ? { value: instrument.range, unit: instrument.unit } : undefined
  const checked = checkReading(declaration, typed, capacity ? { capacity } : {})
  if (!checked.ok) throw invalidField('typed', checked.message)
  const isNumber = declaration.kind === 'number' || declaration.kind === 'count'
  return {
    kind: declaration.kind,
    typed,
    value: isNumber ? checked.value : null,
    unit: isNumber ? (declaration.unit ?? null) : null,
    choice: declaration.kind === 'choice' ? checked.value : null,
  }
}

async function instrumentOf(sql: RowsSql, id: string): Promise<InstrumentAtHand> {
  const instrument = await findInstrument(sql, id)
  if (!instrument)
    throw invalidField('instrumentId', 'This instrument is not in the laboratory’s list. Choose one that is.')
  return instrument
}

async function slotTaken(
  sql: RowsSql,
  record: TestRecord,
  readingId: string,
  label: string,
  sent: unknown,
): Promise<AppError> {
  const [stored] = await readingViews(sql, { ids: [readingId] })
  return new AppError(
    'conflict',
    `${record.label} (${record.code}) already has ${label}: ${stored?.typed}, by ${stored?.by.name}. Keep it, or correct it with a reason.`,
    { extra: { stored, sent } },
  )
}

async function correctedMeanwhile(
  sql: RowsSql,
  record: TestRecord,
  readingId: string,
  sent: unknown,
): Promise<AppError> {
  const chain = await readingViews(sql, { testIds: [record.id] })
  const corrected = chain.find(({ supersedes }) => supersedes?.id === readingId)
  const standing =
    corrected &&
    chain.find(
      (reading) =>
        !reading.superseded &&
        reading.stepKey === corrected.stepKey &&
        reading.key === corrected.key &&
        reading.repeat === corrected.repeat,
    )
  return new AppError(
    'conflict',
    `This reading was corrected meanwhile to ${standing?.typed}, by ${standing?.by.name}. Look at both, and correct the one that stands if it is wrong.`,
    { extra: { stored: standing, sent } },
  )
}
