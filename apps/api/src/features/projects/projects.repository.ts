import type { CreateProject } from '@curebook/contract/projects'
import type { Prisma } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { afterPosition } from '#platform/page'

const withDesigns = {
  client: { select: { name: true } },
  designs: {
    select: {
      id: true,
      name: true,
      designRevisions: { select: { number: true, state: true }, orderBy: { number: 'desc' }, take: 1 },
    },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
  },
} satisfies Prisma.ProjectInclude

export type ProjectRow = Prisma.ProjectGetPayload<{ include: typeof withDesigns }>

export function findProjects(
  { prisma, actor }: LaboratoryTransaction,
  { cursor, limit }: { cursor?: string; limit: number },
) {
  return prisma.project.findMany({
    where: { labId: actor.labId, ...afterPosition('createdAt', cursor) },
    include: withDesigns,
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    take: limit + 1,
  })
}

export function findProject({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.project.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: withDesigns })
}

export function findClientName({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.client.findUnique({ where: { labId_id: { labId: actor.labId, id } }, select: { name: true } })
}

/** Inserts with the laboratory's next project number, taken last. */
export async function insertProject(
  { prisma, actor, at }: LaboratoryTransaction,
  project: CreateProject,
): Promise<void> {
  const [counter] = await prisma.$queryRaw<[{ number: bigint }]>`select next_number('project') as number`
  const { id, clientId, name, kind, reportTo, copiesTo } = project
  const code = `P${String(counter.number).padStart(4, '0')}`
  await prisma.project.createMany({
    data: [
      { labId: actor.labId, id, clientId, code, name, kind, reportTo, copiesTo, statusWord: 'received', createdAt: at },
    ],
  })
}

/** Whether the edit met the version that it started from. */
export async function updateProject(
  { prisma, actor }: LaboratoryTransaction,
  id: string,
  version: number,
  data: { name?: string; reportTo?: string; copiesTo?: string },
): Promise<boolean> {
  const { count } = await prisma.project.updateMany({
    where: { labId: actor.labId, id, version },
    data: { ...data, version: { increment: 1 } },
  })
  return count === 1
}
