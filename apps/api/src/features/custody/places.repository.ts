import type { CreatePlace, Place } from '@curebook/contract/custody'
import type { LaboratoryTransaction } from '#platform/laboratory'

const columns = { id: true, name: true, kind: true, accessControlled: true } as const

export async function findPlaces({ prisma, actor }: LaboratoryTransaction): Promise<Place[]> {
  const rows = await prisma.place.findMany({
    where: { labId: actor.labId },
    select: columns,
    orderBy: [{ name: 'asc' }],
  })
  return rows as Place[]
}

export async function findPlace({ prisma, actor }: LaboratoryTransaction, id: string): Promise<Place | null> {
  const row = await prisma.place.findUnique({ where: { labId_id: { labId: actor.labId, id } }, select: columns })
  return row as Place | null
}

export async function insertPlace({ prisma, actor }: LaboratoryTransaction, place: CreatePlace): Promise<void> {
  await prisma.place.createMany({ data: [{ ...place, labId: actor.labId }] })
}
