import type {
  AddCalibration,
  AddFactor,
  CreateInstrument,
  Instrument,
  UpdateInstrument,
} from '@curebook/contract/instruments'
import type { MethodsService } from '#features/methods/methods.service'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import { isUniqueViolation } from '#platform/database-errors'
import { editOf, repeatedEdit } from '#platform/edit'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { laboratoryToday } from '#platform/laboratory-day'
import { AppError, invalidField, notFound } from '#platform/problem'
import { checkArea, checkKey, checkShown, readFactor } from './instrument-rules.ts'
import { type FactorTables, toInstrument } from './instruments.mapper.ts'
import {
  findInstrument,
  findInstruments,
  insertCalibration,
  insertFactor,
  insertInstrument,
  isWithdrawn,
  lockInstrument,
  updateInstrument,
} from './instruments.repository.ts'

export type InstrumentsService = ReturnType<typeof createInstrumentsService>

/** Balances, ovens, baths and machines, with calibrations and factors. */
export function createInstrumentsService({ laboratory, methods }: { laboratory: Laboratory; methods: MethodsService }) {
  /** The tables that factors are checked against, those of the editions in force. */
  const tablesIn = async (tx: LaboratoryTransaction): Promise<FactorTables> => ({
    area: (await methods.editionInForceIn(tx, 'wet-track-abrasion-1h')).parameters,
    frame: (await methods.editionInForceIn(tx, 'loaded-wheel-sand-adhesion')).parameters,
  })
  const find = async (tx: LaboratoryTransaction, id: string) => {
    const row = await findInstrument(tx, id)
    return row && toInstrument(row, await tablesIn(tx), await laboratoryToday(tx))
  }
  const existing = async (tx: LaboratoryTransaction, id: string) => {
    const instrument = await find(tx, id)
    if (!instrument) throw notFound('instrument')
    return instrument
  }
  const factorOf = async (tx: LaboratoryTransaction, id: string, factorId: string) =>
    (await existing(tx, id)).factors.find((factor) => factor.id === factorId) ?? null
  const topicsOf = (id: string) => ['instruments', `instrument:${id}`]

  return {
    list: (actor: Actor) =>
      laboratory.inLaboratory(actor, async (tx) => {
        const [rows, tables, today] = [await findInstruments(tx), await tablesIn(tx), await laboratoryToday(tx)]
        return { items: rows.map((row) => toInstrument(row, tables, today)), next: null }
      }),

    read: (actor: Actor, id: string) => laboratory.inLaboratory(actor, (tx) => existing(tx, id)),

    async create(actor: Actor, input: CreateInstrument) {
      checkShown(input)
      try {
        return await createOnce(laboratory, actor, {
          subjectKind: 'instrument',
          id: input.id,
          input,
          find: (tx) => find(tx, input.id),
          create: async (tx) => {
            await insertInstrument(tx, input)
            tx.record({
              action: 'instrument:create',
              subjectKind: 'instrument',
              subjectId: input.id,
              topics: topicsOf(input.id),
              content: { ...input },
            })
            return existing(tx, input.id)
          },
        })
      } catch (error) {
        if (!isUniqueViolation(error)) throw error
        const message = `The code ${input.code} is taken: give the one on this instrument’s label.`
        throw new AppError('conflict', message, { errors: [{ path: 'code', message }], cause: error })
      }
    },

    /**
     * What an instrument was before stays in the ledger, with who changed it, when and why; readings name the instrument.
     * @param version the one that the edit starts from (If-Match)
     */
    update: (actor: Actor, id: string, input: UpdateInstrument, version: number) =>
      laboratory.inLaboratory(actor, async (tx) => {
        const edit = editOf({ subjectKind: 'instrument', subjectId: id, action: 'instrument:update' }, version, input)
        // Held before it is looked at: whoever comes second is told of what stands then.
        await lockInstrument(tx, id)
        const before = await existing(tx, id)
        if (before.version !== version) return repeatedEdit(tx, edit, before)
        await refuseWithdrawn(tx, id)
        checkShown({ ...before, ...input })
        checkReason(before, input)
        const { place: placeText, capacity: range, capacityUnit: unit, reason, ...rest } = input
        await updateInstrument(tx, id, { ...rest, placeText, range, unit })
        const after = await existing(tx, id)
        tx.record({
          ...edit,
          topics: topicsOf(id),
          content: { before: wordsOf(before), after: wordsOf(after), ...(reason ? { reason } : {}) },
        })
        return after
      }),

    /** A machine's factor as published, one for each unit. A new one of the same unit names the one it replaces, and why. */
    addFactor: (actor: Actor, id: string, input: AddFactor) =>
      createOnce(laboratory, actor, {
        subjectKind: 'instrument-factor',
        id: input.id,
        input: { instrument: id, ...input },
        find: (tx) => factorOf(tx, id, input.id),
        create: async (tx) => {
          await lockInstrument(tx, id)
          const instrument = await existing(tx, id)
          await refuseWithdrawn(tx, id)
          checkKey(instrument, input)
          const value = readFactor(input)
          checkArea(input)
          await checkDay(tx, input)
          checkReplaced(instrument, input)
          const factor = {
            id: input.id,
            instrumentId: id,
            key: input.key,
            valueText: input.typed,
            value,
            unit: input.unit,
            measuredArea: input.measuredAreaCm2,
            edition: input.edition,
            effectiveFrom: input.effectiveFrom,
            supersedesId: input.supersedes?.id ?? null,
            reason: input.supersedes?.reason ?? null,
          }
          await insertFactor(tx, factor)
          tx.record({
            action: 'instrument:update',
            subjectKind: 'instrument-factor',
            subjectId: input.id,
            topics: topicsOf(id),
            content: factor,
          })
          return (await factorOf(tx, id, input.id))!
        },
      }),

    addCalibration: (actor: Actor, id: string, input: AddCalibration) =>
      createOnce(laboratory, actor, {
        subjectKind: 'calibration',
        id: input.id,
        input: { instrument: id, ...input },
        find: async (tx) =>
          (await existing(tx, id)).calibrations.find((calibration) => calibration.id === input.id) ?? null,
        create: async (tx) => {
          const before = await existing(tx, id)
          await refuseWithdrawn(tx, id)
          if (input.validUntil < input.doneOn)
            throw invalidField('validUntil', 'A calibration cannot end before it was done: give a later day.')
          if (input.doneOn > (await laboratoryToday(tx)))
            throw invalidField('doneOn', 'A calibration is entered when it is done: give today or an earlier day.')
          await insertCalibration(tx, id, input)
          tx.record({
            action: 'instrument:update',
            subjectKind: 'calibration',
            subjectId: input.id,
            topics: topicsOf(id),
            content: { instrument: before.id, ...input },
          })
          return (await existing(tx, id)).calibrations.find((calibration) => calibration.id === input.id)!
        },
      }),
  }
}

/** What was taken back with its import never was one of the laboratory's: nothing is entered for it any more. */
async function refuseWithdrawn(tx: LaboratoryTransaction, id: string): Promise<void> {
  if (!(await isWithdrawn(tx, id))) return
  throw new AppError(
    'wrong-state',
    'This instrument was taken back with the import that made it. Enter it anew, or import the file put right.',
  )
}

function wordsOf({ name, serial, place, capacity, capacityUnit, resolution, state, version }: Instrument) {
  return { name, serial, place, capacity, capacityUnit, resolution, state, version: String(version) }
}

/** What an instrument is changes with a reason; whether it is in service does not need one. */
function checkReason(before: Instrument, input: UpdateInstrument): void {
  const after = { ...before, ...input }
  const facts = ['name', 'serial', 'place', 'capacity', 'capacityUnit', 'resolution'] as const
  if (facts.some((fact) => after[fact] !== before[fact]) && !input.reason)
    throw invalidField('reason', 'Give the reason of the change, like “Moved to the other room”.')
}

async function checkDay(tx: LaboratoryTransaction, { effectiveFrom }: AddFactor): Promise<void> {
  const today = await laboratoryToday(tx)
  if (effectiveFrom > today)
    throw invalidField('effectiveFrom', `A factor is entered when it holds: give ${today} or an earlier day.`)
}

/** The factor of one unit that stands must be the one that is named, or none of both. */
function checkReplaced({ code, factors }: Instrument, sent: AddFactor): void {
  const stored = factors.find(({ key, unit, current }) => key === sent.key && unit === sent.unit && current)
  if (stored?.id === sent.supersedes?.id) return
  const sentence = stored
    ? `${code} holds ${stored.typed} ${stored.unit} since ${stored.effectiveFrom}, entered by ${stored.by.name}. To replace it, name it and give the reason.`
    : `${code} holds no factor in ${sent.unit} yet, so there is none to replace.`
  throw new AppError('conflict', sentence, {
    errors: [{ path: 'supersedes', message: sentence }],
    extra: { stored: stored ?? null, sent },
  })
}
