import type { Prisma } from '@curebook/database/client'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'

const placeColumns = { id: true, name: true } as const
const withHolder = { custodian: { select: personColumns }, place: { select: placeColumns } } as const

const withLife = {
  by: { select: personColumns },
  itemNow: { include: withHolder },
  receipts: {
    include: {
      containers: { orderBy: { n: 'asc' } },
      custodyEvent: { select: { supersededBy: { select: { reason: true, at: true, by: { select: personColumns } } } } },
    },
    orderBy: [{ at: 'desc' }, { writtenAt: 'desc' }, { id: 'desc' }],
  },
  custodyEvents: {
    include: {
      by: { select: personColumns },
      fromMember: { select: personColumns },
      toMember: { select: personColumns },
      fromPlace: { select: placeColumns },
      toPlace: { select: placeColumns },
    },
    orderBy: [{ at: 'asc' }, { writtenAt: 'asc' }, { id: 'asc' }],
  },
} satisfies Prisma.ItemInclude

export type ItemRow = Prisma.ItemGetPayload<{ include: typeof withLife }>
export type CustodyEventRow = ItemRow['custodyEvents'][number]
export type ItemNowRow = Prisma.ItemNowGetPayload<{ include: typeof withHolder }>

export function findItem({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.item.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: withLife })
}

/** The item an event belongs to; null while the event is not there. */
export async function findItemOfEvent({ prisma, actor }: LaboratoryTransaction, eventId: string) {
  const event = await prisma.custodyEvent.findUnique({
    where: { labId_id: { labId: actor.labId, id: eventId } },
    select: { itemId: true },
  })
  return event?.itemId ?? null
}

/** Holds who has the item until the end of the transaction, so that two acts follow one another. */
export async function lockItem({ prisma, actor }: LaboratoryTransaction, itemId: string): Promise<void> {
  await prisma.$queryRaw`
    select item_id from item_now where lab_id = ${actor.labId}::uuid and item_id = ${itemId}::uuid for update`
}

type Row<T> = Omit<T, 'labId' | 'byId' | 'at'>
export type NewCustodyEvent = Row<Prisma.CustodyEventCreateManyInput>
export type Standing = Omit<Prisma.ItemNowCreateManyInput, 'labId'>
export type NewPiece = { item: Row<Prisma.ItemCreateManyInput>; massG: string; massText: string; parentId: string }

/** Appends events and moves who has what. A first standing of one item twice at once is a violation of its key. */
export async function insertEvents(
  { prisma, actor, at }: LaboratoryTransaction,
  events: readonly NewCustodyEvent[],
  standings: readonly { first: boolean; standing: Standing }[],
): Promise<LedgerRow[]> {
  const rows = events.map((event) => ({ ...event, labId: actor.labId, byId: actor.membershipId, at }))
  await prisma.custodyEvent.createMany({ data: rows })
  const firsts = standings.filter(({ first }) => first)
  if (firsts.length > 0)
    await prisma.itemNow.createMany({ data: firsts.map(({ standing }) => ({ ...standing, labId: actor.labId })) })
  for (const { first, standing } of standings) {
    const { itemId, ...data } = standing
    if (!first) await prisma.itemNow.updateMany({ where: { labId: actor.labId, itemId }, data })
  }
  return rows.map((row) => ledgerContentOf('custody_event', row))
}

/** Pieces as items of their own, each with its line to the item it was taken from. */
export async function insertPieces(
  { prisma, actor, at }: LaboratoryTransaction,
  pieces: readonly NewPiece[],
): Promise<void> {
  const { labId, membershipId: byId } = actor
  await prisma.item.createMany({ data: pieces.map(({ item }) => ({ ...item, labId, byId, at })) })
  await prisma.itemParent.createMany({
    data: pieces.map(({ item, parentId, massText, massG }) => ({
      labId,
      childId: item.id,
      parentId,
      massText,
      mass: massG,
    })),
  })
}

/** A gap is a deviation of its own, which waits for a decision. */
export async function insertGapDeviation(
  { prisma, actor, at }: LaboratoryTransaction,
  deviation: { id: string; itemId: string; text: string },
): Promise<LedgerRow> {
  const row = {
    ...deviation,
    kind: 'custody',
    openedByRule: true,
    labId: actor.labId,
    byId: actor.membershipId,
    at,
  }
  await prisma.deviation.createMany({ data: [row] })
  return ledgerContentOf('deviation', row)
}
