import type { PartKind } from '@curebook/contract/machine-parts'
import type { Prisma } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'
import type { Told } from '#platform/told-time'
import { newId } from '#platform/uuid'

const withLot = {
  partLot: { select: { lot: true } },
  by: { select: personColumns },
  supersededBy: { select: { id: true } },
} satisfies Prisma.PartFittingInclude

export type FittingRow = Prisma.PartFittingGetPayload<{ include: typeof withLot }>

/** Every fitting of a machine, in the order of entry. */
export function findFittings({ prisma, actor }: LaboratoryTransaction, instrumentId: string): Promise<FittingRow[]> {
  return prisma.partFitting.findMany({
    where: { labId: actor.labId, instrumentId },
    include: withLot,
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  })
}

/** The lot of this mark, made when it is named for the first time. */
export async function lotNamed(
  { prisma, actor }: LaboratoryTransaction,
  kind: PartKind,
  lot: string,
): Promise<{ id: string }> {
  const key = { labId: actor.labId, kind, lot }
  const stored = await prisma.partLot.findUnique({ where: { labId_kind_lot: key }, select: { id: true } })
  if (stored) return stored
  const id = newId()
  await prisma.partLot.createMany({ data: [{ ...key, id }] })
  return { id }
}

export type NewFitting = {
  readonly id: string
  readonly instrumentId: string
  readonly partLotId: string
  readonly kind: PartKind
  readonly hardnessText: string | null
  readonly hardness: string | null
  readonly supersedesId: string | null
  readonly reason: string | null
}

export async function insertFitting(
  { prisma, actor, at }: LaboratoryTransaction,
  fitting: NewFitting,
  { eventAt, eventFrom, sentAt, receivedAt, offsetMs, note }: Told,
): Promise<void> {
  const told = { eventAt, eventFrom, sentAt, receivedAt, offsetMs, note }
  await prisma.partFitting.createMany({
    data: [{ ...fitting, ...told, labId: actor.labId, byId: actor.membershipId, at }],
  })
}

/** Says at the lots themselves which one is on the machine now. */
export async function markFitted(
  { prisma, actor }: LaboratoryTransaction,
  {
    instrumentId,
    kind,
    lotId,
    hardness,
  }: { instrumentId: string; kind: PartKind; lotId: string; hardness: string | null },
): Promise<void> {
  const { labId } = actor
  await prisma.partLot.updateMany({
    where: { labId, kind, fittedOnId: instrumentId, id: { not: lotId } },
    data: { fittedOnId: null, version: { increment: 1 } },
  })
  await prisma.partLot.updateMany({
    where: { labId, id: lotId },
    data: { fittedOnId: instrumentId, version: { increment: 1 }, ...(hardness === null ? {} : { hardness }) },
  })
}
