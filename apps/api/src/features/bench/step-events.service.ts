import type { PostStepEvents } from '@curebook/contract/bench'
import type { BulkOutcome } from '@curebook/contract/schedule'
import type { MethodDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'
import type { Actor } from '#platform/actor'
import { twice } from '#platform/database-errors'
import type { Laboratory } from '#platform/laboratory'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import { invalidField } from '#platform/problem'
import { newId } from '#platform/uuid'
import { tellTime, type Told } from './event-time.ts'
import { holdReadAlready } from './equipment-holds.ts'
import { loadsOf } from './load-at-hand.ts'
import { openWithoutConstantMass } from './load-out.ts'
import { partsOn } from './machine-parts.repository.ts'
import { findInstrument, type InstrumentAtHand } from './readings.repository.ts'
import { methodOf, settleTests, type SettleContext } from './settle.ts'
import { rowsSql, type RowsSql } from '#platform/sql-rows'
import { refusalOf, stepOf } from './step-event-rules.ts'
import {
  findCurveMachine,
  findStepEvents,
  insertEquipmentUse,
  insertStepEvent,
  settleCurveMachine,
} from './step-events.repository.ts'
import { type ChangedStay, changedStays, judgeChanged } from './stay-changes.ts'
import { recordedEvents, type TestRecord } from './test-record.ts'
import { loadTests } from './test-record.repository.ts'
import { topicsOf } from './topics.ts'

export type StepEventsService = ReturnType<typeof createStepEventsService>

/**
 * Confirms the start or end of a step for many specimens in one act: one row each, one ledger entry each. A specimen for
 * which it cannot be confirmed is reported with the reason; the others go on.
 */
export function createStepEventsService({ laboratory, methods, build }: { laboratory: Laboratory } & SettleContext) {
  const context = { methods, build }

  /** What is taken out at the bench leaves its load as it does at the oven: without constant mass it is kept, and to be decided. */
  async function takeOut(sql: RowsSql, acts: Confirmation): Promise<BulkOutcome> {
    const loads = await loadsOf(sql, methods, acts.rows)
    const outcome = await confirmRows(sql, context, acts)
    for (const load of loads) {
      // Those that stood in it: an act that was confirmed before is answered again, and opens nothing again.
      const moved = outcome.rows.filter(
        ({ id, outcome: done }) =>
          done === 'done' &&
          load.specimens.some(
            ({ testId, stepKey }) =>
              testId === id && acts.rows.some((row) => row.testId === id && row.stepKey === stepKey),
          ),
      )
      await openWithoutConstantMass(
        sql,
        load,
        moved.map(({ id }) => id),
        { word: '', at: tellTime(acts.time, sql.at).effectiveAt },
      )
    }
    return outcome
  }

  function confirm(actor: Actor, input: PostStepEvents): Promise<BulkOutcome> {
    const { stepKey, rows, ...act } = input
    const acts = { ...act, loadId: null, rows: rows.map((row) => ({ ...row, stepKey })) }
    // Another's confirmation of the same act may arrive between; the second look sees it.
    return twice(() =>
      laboratory.inLaboratorySql(actor, async (raw) => {
        const sql = rowsSql(raw)
        return acts.kind === 'end' ? takeOut(sql, acts) : confirmRows(sql, context, acts)
      }),
    )
  }

  return { confirm }
}

/** One kind of act for many tests at one time, each at a step of its own method; of a load where one is named. */
export type Confirmation = Pick<PostStepEvents, 'kind' | 'instrumentId' | 'time'> & {
  readonly loadId: string | null
  readonly rows: readonly { readonly id: string; readonly testId: string; readonly stepKey: string }[]
}

/** Confirms in the transaction of the caller, with the same windows, locks and refusals whoever asks. */
export async function confirmRows(sql: RowsSql, context: SettleContext, input: Confirmation): Promise<BulkOutcome> {
  const testIds = [...new Set(input.rows.map(({ testId }) => testId))]
  const [records, stored, instrument] = [
    await loadTests(sql, testIds, { lock: true }),
    await findStepEvents(
      sql,
      input.rows.map(({ id }) => id),
    ),
    input.instrumentId ? await instrumentOf(sql, input.instrumentId) : null,
  ]
  const told = tellTime(input.time, sql.at)
  const rows: BulkOutcome['rows'] = []
  const changed: ChangedStay[] = []
  for (const wanted of input.rows) {
    const record = records.find(({ id }) => id === wanted.testId)
    const again = stored.find(({ id }) => id === wanted.id)
    if (again) {
      const same = again.testId === wanted.testId && again.stepKey === wanted.stepKey && again.kind === input.kind
      rows.push({
        id: wanted.testId,
        outcome: same ? 'done' : 'refused',
        sentence: same ? null : 'Another act stands under this id. Send the new one under an id of its own.',
      })
      continue
    }
    const sentence = record
      ? await confirmOne(sql, context, record, {
          ...input,
          id: wanted.id,
          stepKey: wanted.stepKey,
          told,
          instrument,
        })
      : 'There is no such test in this laboratory.'
    rows.push({ id: wanted.testId, outcome: sentence === null ? 'done' : 'refused', sentence })
    if (record && sentence === null) {
      const before = recordedEvents(record)
      const act = { step: wanted.stepKey, act: input.kind, at: told.effectiveAt.toISOString() }
      changed.push(...changedStays(methodOf(context.methods, record.methodKey), record.id, before, [...before, act]))
    }
  }
  await judgeChanged(sql, context.methods, changed)
  return { rows }
}

type OneAct = {
  readonly id: string
  readonly stepKey: string
  readonly kind: 'start' | 'end'
  readonly loadId: string | null
  readonly told: Told
  readonly instrument: InstrumentAtHand | null
}

/** @returns why it is refused, or null when it is confirmed */
async function confirmOne(
  sql: RowsSql,
  context: SettleContext,
  record: TestRecord,
  act: OneAct,
): Promise<string | null> {
  const method = methodOf(context.methods, record.methodKey)
  const refusal = refusalOf(method, record, act, act.told.effectiveAt)
  if (refusal) return refusal
  const machine = await machineFor(sql, method, stepOf(method, act), record, act)
  if ('refusal' in machine) return machine.refusal
  const row = await insertStepEvent(sql, {
    id: act.id,
    testId: record.id,
    stepKey: act.stepKey,
    kind: act.kind,
    loadId: act.loadId,
    told: act.told,
    note: act.told.note,
  })
  if (machine.instrument) await keepEquipment(sql, act, machine.instrument)
  const held = machine.instrument
    ? await holdReadAlready(sql, {
        record,
        method,
        stepKey: act.stepKey,
        instrument: machine.instrument,
        at: act.told.effectiveAt,
      })
    : []
  const rows: LedgerRow[] = [row, ...machine.rows, ...held]
  const [settled] = await settleTests(sql, context, [record.id], 'A step was confirmed')
  sql.record({
    action: 'step-event:create',
    subjectKind: 'step_event',
    subjectId: act.id,
    projectId: record.projectId,
    topics: topicsOf(record),
    content: { instrument: machine.instrument?.id ?? null },
    rows: [...rows, ...settled!.rows],
  })
  return null
}

/** What the act was done with: the instrument, and each lot that was on it when the act happened. */
async function keepEquipment(sql: RowsSql, act: OneAct, instrument: InstrumentAtHand): Promise<void> {
  const parts = (await partsOn(sql, [instrument.id], act.told.effectiveAt)).get(instrument.id) ?? []
  for (const partLotId of parts.length > 0 ? parts.map((part) => part.partLotId) : [null])
    await insertEquipmentUse(sql, {
      stepEventId: act.id,
      instrumentId: instrument.id,
      calibrationId: instrument.calibrationId,
      partLotId,
    })
}

/**
 * The instrument of the act. A run on the method's machine needs one; the first run of a curve settles it, and a run on
 * another machine is kept but opens a deviation, since severity differs between machines.
 */
async function machineFor(
  sql: RowsSql,
  method: MethodDeclaration,
  step: StepDeclaration,
  record: TestRecord,
  act: OneAct,
): Promise<{ refusal: string } | { instrument: InstrumentAtHand | null; rows: LedgerRow[] }> {
  const kind = method.machine?.kind
  const isRun = kind !== undefined && act.kind === 'start' && step.equipment.includes(kind)
  if (!isRun || !record.revisionId) return { instrument: act.instrument, rows: [] }
  let curve = await findCurveMachine(sql, record.revisionId, method.key)
  const instrument = act.instrument ?? (curve?.id ? await findInstrument(sql, curve.id) : null)
  if (!instrument)
    return {
      refusal: `${record.label} (${record.code}): choose the machine of the run; its factor belongs to the result.`,
    }
  if (instrument.kind !== kind)
    return { refusal: `${instrument.code} is not a machine for this run. Choose one of the right kind.` }
  if (!curve?.id) {
    await settleCurveMachine(sql, record.revisionId, method.key, instrument.id)
    // Of two first runs at once the second waits for the first, and reads which machine it is now.
    curve = await findCurveMachine(sql, record.revisionId, method.key)
  }
  if (!curve?.id || curve.id === instrument.id) return { instrument, rows: [] }
  return { instrument, rows: [await openOtherMachine(sql, record, instrument, curve.code ?? '')] }
}

async function openOtherMachine(
  sql: RowsSql,
  record: TestRecord,
  instrument: InstrumentAtHand,
  usual: string,
): Promise<LedgerRow> {
  const row = {
    labId: sql.actor.labId,
    id: newId(),
    kind: 'other',
    openedByRule: true,
    testId: record.id,
    itemId: record.itemId,
    instrumentId: instrument.id,
    text: `${record.label} (${record.code}): run on ${instrument.code}, the other specimens of this curve on ${usual}.`,
    at: sql.at,
  }
  await sql.rows(
    `insert into deviation (lab_id, id, kind, opened_by_rule, test_id, item_id, instrument_id, text, at) values ($1::uuid, $2::uuid, $3, true, $4::uuid, $5::uuid, $6::uuid, $7, $8::timestamptz)`,
    [row.labId, row.id, row.kind, row.testId, row.itemId, row.instrumentId, row.text, row.at],
  )
  return ledgerContentOf('deviation', row)
}

async function instrumentOf(sql: RowsSql, id: string): Promise<InstrumentAtHand> {
  const instrument = await findInstrument(sql, id)
  if (!instrument)
    throw invalidField('instrumentId', 'This instrument is not in the laboratory’s list. Choose one that is.')
  return instrument
}
