import type { Prisma } from '@curebook/database/client'
import type { AnyActor } from '#platform/actor'
import type { LaboratoryTransaction } from '#platform/laboratory'

export function listPeople({ prisma, actor }: LaboratoryTransaction) {
  return prisma.membership.findMany({ where: { labId: actor.labId }, orderBy: [{ name: 'asc' }, { id: 'asc' }] })
}

export function findPerson({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.membership.findUnique({ where: { labId_id: { labId: actor.labId, id } } })
}

/** Lets role changes of a laboratory happen one after another, so that two managers cannot leave at the same moment. */
export async function lockRoles({ prisma, actor }: LaboratoryTransaction): Promise<void> {
  await prisma.$queryRaw`select 1 from laboratory where id = ${actor.labId}::uuid for no key update`
}

/** Managers whose membership holds at an instant and has an account. */
export function countManagers({ prisma, actor, at }: LaboratoryTransaction): Promise<number> {
  return prisma.membership.count({
    where: {
      labId: actor.labId,
      roles: { has: 'manager' },
      accountId: { not: null },
      validFrom: { lte: at },
      OR: [{ validUntil: null }, { validUntil: { gt: at } }],
    },
  })
}

/** Under the lock of `lockRoles`, which holds the version that was looked at. */
export async function updatePerson(
  { prisma, actor }: LaboratoryTransaction,
  id: string,
  data: Prisma.MembershipUncheckedUpdateManyInput,
): Promise<void> {
  await prisma.membership.updateMany({
    where: { labId: actor.labId, id },
    data: { ...data, version: { increment: 1 } },
  })
}

export async function insertPerson(
  { prisma }: LaboratoryTransaction<AnyActor>,
  data: Prisma.MembershipCreateManyInput,
): Promise<void> {
  await prisma.membership.createMany({ data: [data] })
}

export async function clientExists({ prisma, actor }: LaboratoryTransaction, id: string): Promise<boolean> {
  return (await prisma.client.count({ where: { labId: actor.labId, id } })) === 1
}
