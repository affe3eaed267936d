import type { CreateMaterial, MaterialKind, NewReceipt } from '@curebook/contract/materials'
import type { Prisma } from '@curebook/database/client'
import { specimenCode } from '@curebook/trade/design/specimen-code'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import { dateOfDay } from '#platform/row-values'
import { newId } from '#platform/uuid'
import type { Received } from './received.ts'

export type MaterialRow = Prisma.ItemGetPayload<Record<never, never>>

export function findMaterials({ prisma, actor }: LaboratoryTransaction, kind?: MaterialKind) {
  return prisma.item.findMany({
    where: { labId: actor.labId, kind: 'sample', materialKind: kind },
    orderBy: [{ receivedOn: 'desc' }, { at: 'desc' }, { code: 'asc' }],
  })
}

export function findMaterialsOf({ prisma, actor }: LaboratoryTransaction, ids: readonly string[]) {
  return prisma.item.findMany({ where: { labId: actor.labId, kind: 'sample', id: { in: [...ids] } } })
}

/** Codes for that many items, from the counter that all items of the laboratory share. Taken last: it stays locked. */
export async function nextItemCodes({ prisma }: LaboratoryTransaction, count: number): Promise<string[]> {
  const rows = await prisma.$queryRaw<
    { number: bigint }[]
  >`select next_number('item') as number from generate_series(1, ${count}::int)`
  return rows.map(({ number }) => specimenCode(Number(number)))
}

type Arrival = {
  custodyEventId: string
  eventAt: Date
  eventFrom: 'now' | 'paper'
  note: string | null
  found: Received
}

/**
 * The sample, the first link of its chain of custody, who or which place has it now, and what was found on arrival.
 * @returns its code, and rows for the ledger
 */
export async function insertMaterial(
  tx: LaboratoryTransaction,
  material: CreateMaterial,
  arrival: Arrival,
): Promise<{ code: string; rows: LedgerRow[] }> {
  const { prisma, actor, at } = tx
  const { labId, membershipId: byId } = actor
  const [code] = (await nextItemCodes(tx, 1)) as [string]
  const { id, kind, name, sourceName, supplier, lot, receivedOn, note } = material
  await prisma.item.createMany({
    data: [
      {
        labId,
        id,
        kind: 'sample',
        code,
        name,
        materialKind: kind,
        sourceName,
        supplier,
        lot,
        note,
        receivedOn: dateOfDay(receivedOn),
        madeAt: arrival.eventAt,
        byId,
        at,
      },
    ],
  })
  const received = await insertCustody(tx, material, arrival)
  if (material.receipt) await insertReceipt(tx, { itemId: id, receipt: material.receipt, ...arrival })
  return { code, rows: [received] }
}

async function insertCustody(
  { prisma, actor, at }: LaboratoryTransaction,
  { id: itemId, supplier, sourceName, receipt }: CreateMaterial,
  { custodyEventId, eventAt, eventFrom, note, found }: Arrival,
): Promise<LedgerRow> {
  const { labId, membershipId: byId } = actor
  const row = {
    labId,
    id: custodyEventId,
    itemId,
    kind: 'received',
    fromParty: supplier || sourceName,
    ...found.custodian,
    eventAt,
    eventFrom,
    condition: receipt?.condition ?? null,
    sealIntact: receipt?.sealIntact ?? null,
    temperatureText: receipt?.temperature ?? null,
    temperature: found.temperature,
    mass: found.massG,
    note,
    byId,
    at,
  }
  await prisma.custodyEvent.createMany({ data: [row] })
  const now = 'toPlaceId' in found.custodian ? { placeId: found.custodian.toPlaceId } : { custodianId: byId }
  await prisma.itemNow.createMany({
    data: [{ labId, itemId, ...now, mass: found.massG, status: 'with', lastEventId: custodyEventId }],
  })
  return ledgerContentOf('custody_event', row)
}

/** What was found and told when the custody event was recorded, whole. */
export async function insertReceipt(
  { prisma, actor, at }: LaboratoryTransaction,
  {
    itemId,
    receipt,
    custodyEventId,
    found,
  }: Pick<Arrival, 'custodyEventId' | 'found'> & {
    itemId: string
    receipt: NewReceipt
  },
): Promise<void> {
  const { labId, membershipId: byId } = actor
  const { containerKind, containerCount, sampledBy, sampledWhere, sampledHow, safetySheet, safetySheetName, madeOn } =
    receipt
  const id = newId()
  await prisma.receipt.createMany({
    data: [
      {
        labId,
        id,
        itemId,
        custodyEventId,
        containerKind,
        containerCount: containerCount ?? (found.containers.length || null),
        sampledBy,
        sampledWhere,
        sampledHow,
        safetySheet,
        safetySheetName,
        madeOn: madeOn === undefined ? null : dateOfDay(madeOn),
        byId,
        at,
      },
    ],
  })
  await prisma.receiptContainer.createMany({
    data: found.containers.map(({ typed, digits, unit }, n) => ({
      labId,
      receiptId: id,
      n: n + 1,
      amountText: typed,
      amount: digits,
      unit,
    })),
  })
}
