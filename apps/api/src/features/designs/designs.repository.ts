import type { Prisma } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { afterPosition } from '#platform/page'
import { personColumns } from '#platform/row-values'

const withProject = {
  project: { select: { name: true, clientId: true, client: { select: { name: true } } } },
} satisfies Prisma.DesignInclude

const withResult = {
  by: { select: personColumns },
  supersedes: { select: { id: true, valueText: true } },
} satisfies Prisma.ResultInclude

/** The last sending back of a revision. */
const withSendBack = {
  sendBacks: { include: { by: { select: personColumns } }, orderBy: [{ writtenAt: 'desc' }, { id: 'desc' }], take: 1 },
} satisfies Prisma.DesignRevisionInclude

const withContent = {
  design: { include: withProject },
  mixes: { orderBy: { ordinal: 'asc' } },
  designMethods: { orderBy: { methodKey: 'asc' }, include: { edition: { select: { parameters: true } } } },
  residueResult: { include: withResult },
  moistureResult: { include: withResult },
  ...withSendBack,
} satisfies Prisma.DesignRevisionInclude

export type RevisionRow = Prisma.DesignRevisionGetPayload<{ include: typeof withContent }>
export type EnteredRow = NonNullable<RevisionRow['residueResult']>
export type MixRow = RevisionRow['mixes'][number]

export function findDesigns(
  { prisma, actor }: LaboratoryTransaction,
  { cursor, limit }: { cursor?: string; limit: number },
) {
  return prisma.design.findMany({
    where: { labId: actor.labId, ...afterPosition('createdAt', cursor) },
    include: { ...withProject, designRevisions: { include: withSendBack, orderBy: { number: 'desc' }, take: 1 } },
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    take: limit + 1,
  })
}
export type DesignRow = Awaited<ReturnType<typeof findDesigns>>[number]

/** A revision of a design by its number, the newest without; null where there is none. */
export function findRevision(
  { prisma, actor }: LaboratoryTransaction,
  designId: string,
  number?: number,
): Promise<RevisionRow | null> {
  return prisma.designRevision.findFirst({
    where: { labId: actor.labId, designId, number },
    include: withContent,
    orderBy: { number: 'desc' },
  })
}

export function findRevisionNumbers({ prisma, actor }: LaboratoryTransaction, designId: string) {
  return prisma.designRevision.findMany({
    where: { labId: actor.labId, designId },
    select: { id: true, number: true, state: true },
    orderBy: { number: 'asc' },
  })
}

export function findEntered({ prisma, actor }: LaboratoryTransaction, id: string): Promise<EnteredRow | null> {
  return prisma.result.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: withResult })
}

/** Holds the design until the end of the transaction: edits, plans, entered results and revisions follow one another. */
export async function lockDesign({ prisma, actor }: LaboratoryTransaction, designId: string): Promise<void> {
  await prisma.$queryRaw`select id from design where lab_id = ${actor.labId}::uuid and id = ${designId}::uuid for update`
}

/** Whether any test of a design is planned, in whichever revision and state: void ones were made of its samples too. */
export async function hasTests({ prisma, actor }: LaboratoryTransaction, designId: string): Promise<boolean> {
  const where = { labId: actor.labId, designRevision: { designId } }
  return (await prisma.testEvent.findFirst({ where, select: { id: true } })) !== null
}

export type TestCounts = { done: number; total: number }

/**
 * Tests finished and tests that count, by design: of every revision up to `upTo`, batches left out, spares only where they
 * took a place.
 */
export async function countTests(
  { prisma, actor }: LaboratoryTransaction,
  designIds: readonly string[],
  upTo = 2_147_483_647,
): Promise<ReadonlyMap<string, TestCounts>> {
  const rows = await prisma.$queryRaw<{ designId: string; done: number; total: number }[]>`
    select r.design_id as "designId", (count(*) filter (where n.state = 'done'))::int as done, count(*)::int as total
      from design_revision r
      join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id
      join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
     where r.lab_id = ${actor.labId}::uuid and r.design_id = any(${designIds}::uuid[]) and r.number <= ${upTo}::int
       and t.method_key <> 'batch' and n.state in ('waiting', 'in-work', 'done')
       and (t.purpose <> 'spare' or exists (
         select from test_replacement taken where taken.lab_id = t.lab_id and taken.spare_test_id = t.id))
     group by r.design_id`
  return new Map(rows.map(({ designId, ...counts }) => [designId, counts]))
}

export async function insertDesign(
  { prisma, actor, at }: LaboratoryTransaction,
  design: { id: string; projectId: string; name: string; kind: string },
  revision: Omit<Prisma.DesignRevisionCreateManyInput, 'labId' | 'createdAt' | 'designId'>,
): Promise<void> {
  await prisma.design.createMany({ data: [{ ...design, labId: actor.labId, createdAt: at }] })
  await insertRevision({ prisma, actor, at }, { ...revision, designId: design.id })
}

export async function insertRevision(
  { prisma, actor, at }: Pick<LaboratoryTransaction, 'prisma' | 'actor' | 'at'>,
  revision: Omit<Prisma.DesignRevisionCreateManyInput, 'labId' | 'createdAt'>,
): Promise<void> {
  await prisma.designRevision.createMany({ data: [{ ...revision, labId: actor.labId, createdAt: at }] })
}

/** Raises the version. The design is locked, so that the version that was looked at stands. */
export async function updateRevision(
  { prisma, actor }: LaboratoryTransaction,
  id: string,
  data: Omit<Prisma.DesignRevisionUncheckedUpdateManyInput, 'labId' | 'id' | 'version'>,
): Promise<void> {
  await prisma.designRevision.updateMany({
    where: { labId: actor.labId, id },
    data: { ...data, version: { increment: 1 } },
  })
}

export async function renameDesign({ prisma, actor }: LaboratoryTransaction, id: string, name: string): Promise<void> {
  await prisma.design.updateMany({ where: { labId: actor.labId, id }, data: { name, version: { increment: 1 } } })
}

export function findProjectKind({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.project.findUnique({
    where: { labId_id: { labId: actor.labId, id } },
    select: { kind: true, clientId: true },
  })
}

/** A row of `result` as it is written. */
export type ResultRow = Prisma.ResultCreateManyInput
