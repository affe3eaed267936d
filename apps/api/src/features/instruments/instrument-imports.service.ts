import type {
  ImportInstruments,
  ImportPreview,
  ImportRow,
  InstrumentImport,
  PreviewImport,
  TakeBackImport,
} from '@curebook/contract/instrument-imports'
import type { Actor } from '#platform/actor'
import { sha256 } from '#platform/canonical-json'
import { createOnce } from '#platform/creation'
import { isUniqueViolation } from '#platform/database-errors'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { laboratoryToday } from '#platform/laboratory-day'
import { AppError, notFound } from '#platform/problem'
import { rowsSqlOf } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import { judgeLines } from './instrument-file-rows.ts'
import { readInstrumentFile } from './instrument-file.ts'
import {
  findCodes,
  findImports,
  findTakenBack,
  findUsed,
  insertImport,
  insertImportRows,
  insertWithdrawals,
  lockImport,
} from './instrument-imports.repository.ts'
import { readFactor } from './instrument-rules.ts'
import { insertCalibration, insertFactor, insertInstrument } from './instruments.repository.ts'

export type InstrumentImportsService = ReturnType<typeof createInstrumentImportsService>

/** Instruments from a file: all of them or none, and taken back as a whole while none was used. */
export function createInstrumentImportsService({ laboratory }: { laboratory: Laboratory }) {
  return {
    list: (actor: Actor) =>
      laboratory.inLaboratory(actor, async (tx) => ({ items: await findImports(tx), next: null })),

    /** What an import would make; changes nothing. */
    preview: (actor: Actor, { content }: PreviewImport): Promise<ImportPreview> =>
      laboratory.inLaboratory(actor, (tx) => judge(tx, content)),

    async bringIn(actor: Actor, input: ImportInstruments) {
      try {
        return await createOnce<InstrumentImport>(laboratory, actor, {
          subjectKind: 'instrument-import',
          id: input.id,
          input,
          find: async (tx) => (await findImports(tx, input.id))[0] ?? null,
          create: async (tx) => {
            const { rows, faults } = await judge(tx, input.content)
            if (faults.length > 0) throw refusal(faults)
            await bringInRows(tx, input, rows)
            return (await findImports(tx, input.id))[0]!
          },
        })
      } catch (error) {
        if (!isUniqueViolation(error)) throw error
        throw new AppError('conflict', 'Somebody entered one of these codes meanwhile. Read the file again.', {
          cause: error,
        })
      }
    },

    takeBack: (actor: Actor, importId: string, input: TakeBackImport) =>
      createOnce<InstrumentImport>(laboratory, actor, {
        subjectKind: 'instrument-withdrawal',
        id: input.id,
        input: { import: importId, ...input },
        find: (tx) => findTakenBack(tx, input.id),
        create: async (tx) => {
          await lockImport(tx, importId)
          const [found] = await findImports(tx, importId)
          if (!found) throw notFound('import')
          refuseTakenBack(found)
          const used = await findUsed(rowsSqlOf(tx), importId)
          if (used.length > 0) throw refuseUsed(used)
          const ids = found.instruments.map(({ id }) => id)
          await insertWithdrawals(tx, ids, { actId: input.id, reason: input.reason })
          tx.record({
            action: 'instrument:take-back',
            subjectKind: 'instrument-withdrawal',
            subjectId: input.id,
            topics: ['instruments', ...ids.map((id) => `instrument:${id}`)],
            content: { import: importId, reason: input.reason, instruments: ids },
          })
          return (await findImports(tx, importId))[0]!
        },
      }),
  }
}

async function judge(tx: LaboratoryTransaction, content: string): Promise<ImportPreview> {
  const file = readInstrumentFile(content)
  const judged = judgeLines(file.lines, { taken: await findCodes(tx), today: await laboratoryToday(tx) })
  const faults = [...file.faults, ...judged.faults].toSorted((one, other) => one.line - other.line)
  const faulty = new Set(file.faults.map(({ line }) => line))
  return { rows: judged.rows.filter(({ line }) => !faulty.has(line)), faults }
}

function refusal(faults: ImportPreview['faults']): AppError {
  return new AppError('invalid-input', 'Nothing was stored: put the lines right that have a fault.', {
    errors: faults.map(({ line, column, message }) => ({
      path: 'content',
      message: `Line ${line}${column === null ? '' : `, ${column}`}: ${message}`,
    })),
  })
}

async function bringInRows(
  tx: LaboratoryTransaction,
  input: ImportInstruments,
  rows: readonly ImportRow[],
): Promise<void> {
  await insertImport(tx, input)
  const made = rows.map((row) => ({ ...row, instrument: { id: newId(), ...row.instrument } }))
  for (const { instrument, calibration, factor } of made) {
    await insertInstrument(tx, instrument)
    const content = { ...instrument, import: input.id }
    if (calibration !== null) await insertCalibration(tx, instrument.id, { id: newId(), ...calibration })
    if (factor !== null) await insertFactor(tx, factorRow(instrument.id, factor))
    tx.record({
      action: 'instrument:create',
      subjectKind: 'instrument',
      subjectId: instrument.id,
      topics: ['instruments', `instrument:${instrument.id}`],
      content: { ...content, calibration, factor },
    })
  }
  await insertImportRows(
    tx,
    input.id,
    made.map(({ line, instrument }) => ({ line, instrumentId: instrument.id })),
  )
  tx.record({
    action: 'instrument:import',
    subjectKind: 'instrument-import',
    subjectId: input.id,
    topics: ['instruments'],
    content: {
      file: input.fileName,
      sha256: sha256(input.content).toString('hex'),
      instruments: made.map(({ instrument }) => instrument.id),
    },
  })
}

function factorRow(instrumentId: string, factor: NonNullable<ImportRow['factor']>) {
  const { key, typed, unit, measuredAreaCm2, edition, effectiveFrom } = factor
  return {
    ...{ id: newId(), instrumentId, key, valueText: typed, value: readFactor(factor), unit },
    ...{ measuredArea: measuredAreaCm2, edition, effectiveFrom, supersedesId: null, reason: null },
  }
}

function refuseTakenBack({ takenBack }: InstrumentImport): void {
  if (takenBack === null) return
  throw new AppError('wrong-state', `${takenBack.by.name} took this import back already: ${takenBack.reason}.`)
}

function refuseUsed(used: readonly { code: string; word: string }[]): AppError {
  const named = used.map(({ code, word }) => `${code} by ${word}`).join(', ')
  return new AppError(
    'wrong-state',
    `The import cannot be taken back: ${used.length === 1 ? 'an instrument of it was' : 'instruments of it were'} used already, ${named}. Take out of service what is not wanted.`,
  )
}
