import type { ImportInstruments, InstrumentImport } from '@curebook/contract/instrument-imports'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns, personName } from '#platform/row-values'
import type { RowsSql } from '#platform/sql-rows'

/** Imports with what they made, newest first. */
export async function findImports({ prisma, actor }: LaboratoryTransaction, id?: string): Promise<InstrumentImport[]> {
  const rows = await prisma.instrumentImport.findMany({
    where: { labId: actor.labId, id },
    select: {
      id: true,
      fileName: true,
      at: true,
      by: { select: personColumns },
      instrumentImportRows: {
        orderBy: { line: 'asc' },
        select: {
          line: true,
          instrument: {
            select: {
              ...{ id: true, code: true, name: true },
              instrumentWithdrawal: { select: { at: true, reason: true, by: { select: personColumns } } },
            },
          },
        },
      },
    },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
  })
  return rows.map(({ by, at, instrumentImportRows, ...plain }) => {
    const withdrawal = instrumentImportRows[0]?.instrument.instrumentWithdrawal
    return {
      ...plain,
      at: at.toISOString(),
      by: personName(by),
      instruments: instrumentImportRows.map(({ line, instrument: { id: instrumentId, code, name } }) => ({
        ...{ id: instrumentId, code, name, line },
      })),
      takenBack: withdrawal
        ? { by: personName(withdrawal.by), at: withdrawal.at.toISOString(), reason: withdrawal.reason }
        : null,
    }
  })
}

/** The import that an act took back. */
export async function findTakenBack(tx: LaboratoryTransaction, actId: string): Promise<InstrumentImport | null> {
  const row = await tx.prisma.instrumentWithdrawal.findFirst({
    where: { labId: tx.actor.labId, actId },
    select: { instrument: { select: { instrumentImportRow: { select: { importId: true } } } } },
  })
  const importId = row?.instrument.instrumentImportRow?.importId
  return importId === undefined ? null : ((await findImports(tx, importId))[0] ?? null)
}

export async function insertImport(
  { prisma, actor, at }: LaboratoryTransaction,
  { id, fileName, content }: ImportInstruments,
): Promise<void> {
  await prisma.instrumentImport.createMany({
    data: [{ labId: actor.labId, id, fileName, content, byId: actor.membershipId, at }],
  })
}

export async function insertImportRows(
  { prisma, actor }: LaboratoryTransaction,
  importId: string,
  rows: readonly { readonly instrumentId: string; readonly line: number }[],
): Promise<void> {
  await prisma.instrumentImportRow.createMany({ data: rows.map((row) => ({ ...row, labId: actor.labId, importId })) })
}

export async function findCodes({ prisma, actor }: LaboratoryTransaction): Promise<ReadonlySet<string>> {
  const rows = await prisma.instrument.findMany({
    where: { labId: actor.labId, withdrawnAt: null },
    select: { code: true },
  })
  return new Set(rows.map(({ code }) => code))
}

/**
 * Holds the instruments of an import until the end of the transaction. Whoever begins to use one meanwhile waits at the insert,
 * and is refused there once it is taken back (`refuse_withdrawn`).
 */
export async function lockImport({ prisma, actor }: LaboratoryTransaction, importId: string): Promise<void> {
  await prisma.$queryRaw`
    select i.id from instrument i join instrument_import_row r on r.lab_id = i.lab_id and r.instrument_id = i.id
     where r.lab_id = ${actor.labId}::uuid and r.import_id = ${importId}::uuid order by i.id for update of i`
}

/** Tables whose rows name an instrument because it was used, with what that is called. */
const uses: readonly (readonly [table: string, column: string, word: string])[] = [
  ['reading', 'instrument_id', 'a reading'],
  ['equipment_use', 'instrument_id', 'a step'],
  ['instrument_check', 'instrument_id', 'a check'],
  ['part_fitting', 'instrument_id', 'a fitted part'],
  ['part_lot', 'fitted_on_id', 'a fitted part'],
  ['instrument_line', 'instrument_id', 'how it sends'],
  ['load', 'instrument_id', 'a load'],
  ['place', 'instrument_id', 'a place'],
  ['design_method', 'machine_id', 'a design'],
  ['put_in_list', 'instrument_id', 'a put-in list'],
  ['plan', 'instrument_id', 'a plan'],
  ['deviation', 'instrument_id', 'a deviation'],
  ['condition_value', 'instrument_id', 'a temperature'],
  ['instrument_key', 'instrument_id', 'a logger’s key'],
]

/** Instruments of an import that were used or added to since, the first use of each. */
export function findUsed(sql: RowsSql, importId: string): Promise<{ code: string; word: string }[]> {
  const used = uses.map(
    ([table, column, word], index) =>
      `select '${word}' as word, ${index} as rank where exists (select from ${table} u where u.lab_id = i.lab_id and u.${column} = i.id)`,
  )
  // What the import itself entered carries its time; a calibration or factor of another is work of its own.
  const added = [
    ['calibration', 'a later calibration'],
    ['instrument_factor', 'a later factor'],
  ].map(
    ([table, word], index) =>
      `select '${word}' as word, ${uses.length + index} as rank where exists (select from ${table} u where u.lab_id = i.lab_id and u.instrument_id = i.id and u.at <> m.at)`,
  )
  return sql.rows(
    `select i.code, first.word from instrument_import m
       join instrument_import_row r on r.lab_id = m.lab_id and r.import_id = m.id
       join instrument i on i.lab_id = r.lab_id and i.id = r.instrument_id
       join lateral (select word from (${[...used, ...added].join(' union all ')}) every_use order by rank limit 1) first on true
      where m.lab_id = $1::uuid and m.id = $2::uuid order by r.line`,
    [sql.actor.labId, importId],
  )
}

export async function insertWithdrawals(
  { prisma, actor, at }: LaboratoryTransaction,
  instrumentIds: readonly string[],
  { actId, reason }: { actId: string; reason: string },
): Promise<void> {
  await prisma.instrumentWithdrawal.createMany({
    data: instrumentIds.map((instrumentId) => ({
      ...{ labId: actor.labId, instrumentId, actId, reason, byId: actor.membershipId, at },
    })),
  })
  await prisma.instrument.updateMany({
    where: { labId: actor.labId, id: { in: [...instrumentIds] } },
    data: { state: 'out', withdrawnAt: at, version: { increment: 1 } },
  })
}
