import type { CreateMaterial, MaterialKind } from '@curebook/contract/materials'
import type { Prisma } from '@curebook/database/client'
import { specimenCode } from '@curebook/trade/design/specimen-code'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { dateOfDay } from '#platform/row-values'

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

/** The sample, the first link of its chain of custody, and who has it now. */
export async function insertMaterial(
  tx: LaboratoryTransaction,
  material: CreateMaterial,
  received: { custodyEventId: string; eventAt: Date; eventFrom: 'now' | 'paper'; note: string | null },
): Promise<string> {
  const { prisma, actor, at } = tx
  const { labId, membershipId } = actor
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
        madeAt: received.eventAt,
        byId: membershipId,
        at,
      },
    ],
  })
  await prisma.custodyEvent.createMany({
    data: [
      {
        labId,
        id: received.custodyEventId,
        itemId: id,
        kind: 'received',
        fromParty: supplier || sourceName,
        toMemberId: membershipId,
        eventAt: received.eventAt,
        eventFrom: received.eventFrom,
        note: received.note,
        byId: membershipId,
        at,
      },
    ],
  })
  await prisma.itemNow.createMany({
    data: [{ labId, itemId: id, custodianId: membershipId, status: 'with', lastEventId: received.custodyEventId }],
  })
  return code
}
