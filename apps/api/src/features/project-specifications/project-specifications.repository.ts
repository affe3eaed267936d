import type { Prisma } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'

const withPerson = { by: { select: personColumns } } satisfies Prisma.ProjectSpecificationInclude
export type PinRow = Prisma.ProjectSpecificationGetPayload<{ include: typeof withPerson }>

/** All that a project was set on, the newest first: each supersedes the one before, whatever their times say. */
export async function findPins({ prisma, actor }: LaboratoryTransaction, projectId: string): Promise<PinRow[]> {
  const rows = await prisma.projectSpecification.findMany({
    where: { labId: actor.labId, projectId },
    include: withPerson,
  })
  const superseded = new Set(rows.map(({ supersedesId }) => supersedesId))
  const chain: PinRow[] = []
  for (let row = rows.find(({ id }) => !superseded.has(id)); row;) {
    chain.push(row)
    const { supersedesId }: PinRow = row
    row = rows.find(({ id }) => id === supersedesId)
  }
  return chain
}

export function findPin({ prisma, actor }: LaboratoryTransaction, id: string): Promise<PinRow | null> {
  return prisma.projectSpecification.findUnique({
    where: { labId_id: { labId: actor.labId, id } },
    include: withPerson,
  })
}

/** What a project stands on; null where none was set. */
export async function findStandingId(
  { prisma, actor }: LaboratoryTransaction,
  projectId: string,
): Promise<string | null> {
  const row = await prisma.projectSpecification.findFirst({
    where: { labId: actor.labId, projectId, supersededBy: { is: null } },
    select: { specificationId: true },
  })
  return row?.specificationId ?? null
}

/**
 * Who sets what a project stands on waits for whoever makes or changes a design of it, and they for whoever sets it. Rows that
 * only name the project are held up by neither.
 */
export async function holdProject(
  { prisma, actor }: LaboratoryTransaction,
  projectId: string,
  { toSet }: { toSet: boolean },
): Promise<void> {
  if (toSet)
    await prisma.$queryRaw`
      select id from project where lab_id = ${actor.labId}::uuid and id = ${projectId}::uuid for no key update`
  else
    await prisma.$queryRaw`
      select id from project where lab_id = ${actor.labId}::uuid and id = ${projectId}::uuid for share`
}

export function findProjectOf({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.project.findUnique({
    where: { labId_id: { labId: actor.labId, id } },
    select: {
      clientId: true,
      designs: {
        select: {
          id: true,
          name: true,
          designRevisions: {
            select: { number: true, state: true, specificationId: true, specificationReason: true },
            orderBy: { number: 'desc' },
            take: 1,
          },
        },
        orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
      },
    },
  })
}

export async function insertPin(
  { prisma, actor, at }: LaboratoryTransaction,
  row: Omit<Prisma.ProjectSpecificationCreateManyInput, 'labId' | 'byId' | 'at'>,
): Promise<void> {
  await prisma.projectSpecification.createMany({
    data: [{ ...row, labId: actor.labId, byId: actor.membershipId, at }],
  })
}
