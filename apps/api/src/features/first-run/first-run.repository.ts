import type { Prisma, PrismaClient } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'

export async function laboratoryExists(prisma: Prisma.TransactionClient | PrismaClient): Promise<boolean> {
  const [row] = await prisma.$queryRaw<[{ exists: boolean }]>`select laboratory_exists() as exists`
  return row.exists
}

/** Two first runs at once: the second waits, and then finds the laboratory of the first. */
export async function lockFirstRun({ prisma }: LaboratoryTransaction): Promise<void> {
  await prisma.$executeRaw`select pg_advisory_xact_lock(hashtextextended('curebook first run', 0))`
}

export async function insertLaboratory(
  { prisma }: LaboratoryTransaction,
  data: Prisma.LaboratoryCreateManyInput,
): Promise<void> {
  await prisma.laboratory.createMany({ data: [data] })
}

/** The transaction's own actor becomes the laboratory's first member. */
export async function insertManager({ prisma, actor, at }: LaboratoryTransaction): Promise<void> {
  const { labId, membershipId, accountId, name, initials, roles } = actor
  await prisma.membership.createMany({
    data: [{ labId, id: membershipId, accountId, name, initials, roles, validFrom: at }],
  })
}
