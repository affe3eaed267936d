import type { CreateClient } from '@curebook/contract/projects'
import type { LaboratoryTransaction } from '#platform/laboratory'

export function findClients({ prisma, actor }: LaboratoryTransaction) {
  return prisma.client.findMany({ where: { labId: actor.labId }, orderBy: [{ name: 'asc' }, { id: 'asc' }] })
}

export function findClient({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.client.findUnique({ where: { labId_id: { labId: actor.labId, id } } })
}

export async function insertClient(
  { prisma, actor }: LaboratoryTransaction,
  { id, name, contact, address }: CreateClient,
) {
  await prisma.client.createMany({ data: [{ labId: actor.labId, id, name, contact, address }] })
}
