import type { CorrectReading, PostedReading, PostReading } from '@curebook/contract/bench'
import type { MethodDeclaration, ReadingDeclaration } from '@curebook/trade/procedure/declaration'
import { declaredReading } from '@curebook/trade/procedure/declared-reading'
import { checkReading } from '@curebook/trade/procedure/reading-check'
import { drawnFromIn, recordDrawIn, type DrawnFrom } from '#features/custody/draws.service'
import type { Actor } from '#platform/actor'
import { digestOf } from '#platform/canonical-json'
import { twice } from '#platform/database-errors'
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
import { methodOf, settleAgain, settleTests, type SettleContext } from './settle.ts'
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
        const { declaration } = declared(methods, method, input)
        const taken = record.slots.find(
          ({ step, key, repeat }) => step === input.stepKey && key === input.key && repeat === input.repeat,
        )
        const opened = record.opened.find(
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
          // In place of one that was taken back: an act of its own all the same.
          supersedesId: opened?.readingId ?? null,
          reason: opened?.reason ?? null,
          told,
          actedAt: told.effectiveAt,
        })
        // Nothing of one that was taken back: a bag that was scanned wrongly is none.
        const drawn = await drawnFromOf(sql, record, declaration, { ...input, supersedesId: null })
        const held = await holdUnfit(sql, {
          record,
          method,
          stepKey: input.stepKey,
          readingId: input.id,
          instrument,
          actedAt: told.effectiveAt,
          toldAt: told.effectiveAt,
          slipOf: null,
          drawn,
        })
        const [settled] = await settleTests(sql, context, [testId], 'A reading was added')
        const draw = await recordDrawIn(sql, input.id, drawn)
        sql.record({
          action: 'reading:create',
          subjectKind: 'reading',
          subjectId: input.id,
          projectId: record.projectId,
          topics: [...topicsOf(record, settled!.casts), ...(draw.length > 0 ? ['materials'] : [])],
          rows: [row, ...held, ...settled!.rows, ...draw],
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
        const { declaration } = declared(methods, method, {
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
        const { drawnFromId } = input
        const drawn = await drawnFromOf(sql, record, declaration, { drawnFromId, supersedesId: readingId })
        const held = await holdUnfit(sql, {
          record,
          method,
          stepKey: slot.step,
          readingId: input.id,
          instrument,
          actedAt,
          toldAt: told.effectiveAt,
          slipOf: again ? null : readingId,
          drawn,
        })
        const [settled] = await settleTests(sql, context, [testId], `Reading corrected: ${input.reason}`)
        const draw = await recordDrawIn(sql, input.id, drawn)
        sql.record({
          action: 'reading:correct',
          subjectKind: 'reading',
          subjectId: input.id,
          projectId: record.projectId,
          topics: [...topicsOf(record, settled!.casts), ...(draw.length > 0 ? ['materials'] : [])],
          content: { supersedes: readingId, reason: input.reason },
          rows: [row, ...held, ...settled!.rows, ...draw],
        })
        return { created: true, value: await postedReading(sql, context, settled!, input.id) }
      }),
    )
  }

  return { post, correct }
}

/** A component of a batch is drawn of a sample, or of the bag that was named; nothing else is drawn of anything. */
async function drawnFromOf(
  sql: RowsSql,
  { form, revisionId }: TestRecord,
  { target }: ReadingDeclaration,
  { drawnFromId, supersedesId }: { drawnFromId?: string | null | undefined; supersedesId: string | null },
): Promise<DrawnFrom | null> {
  if (form === 'batch' && target)
    return drawnFromIn(sql, { revisionId, component: target.component, drawnFromId, supersedesId })
  if (drawnFromId == null) return null
  throw invalidField('drawnFromId', 'A bag is named for a component of a batch only: leave it out.')
}

export async function lockedTest(sql: RowsSql, testId: string): Promise<TestRecord> {
  const [record] = await loadTests(sql, [testId], { lock: true })
  if (!record) throw notFound('test')
  return record
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
  const settled = await settleAgain(sql, context, record)
  return { created: false, value: await postedReading(sql, context, settled, input.id) }
}

function declared(
  methods: readonly MethodDeclaration[],
  method: MethodDeclaration,
  { stepKey, key, repeat }: { stepKey: string; key: string; repeat: number },
): { declaration: ReadingDeclaration } {
  const step = method.steps.find((candidate) => candidate.key === stepKey)
  if (!step) throw invalidField('stepKey', `${method.name} has no step “${stepKey}”.`)
  const declaration = declaredReading(methods, method, { step: stepKey, key })
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

export async function correctedMeanwhile(
  sql: RowsSql,
  record: TestRecord,
  readingId: string,
  sent: unknown,
): Promise<AppError> {
  const chain = await readingViews(sql, { testIds: [record.id] })
  const withdrawn = record.opened.some((slot) => slot.readingId === readingId)
  if (withdrawn)
    return new AppError(
      'conflict',
      'This reading was withdrawn meanwhile. Enter the value anew where it is asked for.',
      {
        extra: { stored: chain.find(({ id }) => id === readingId), sent },
      },
    )
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
