import type { Prisma } from '@curebook/database/client'
import { canonicalJson, sha256, type Canonical } from '#platform/canonical-json'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'

const whole = {
  by: { select: personColumns },
  withdrawal: { include: { by: { select: personColumns } } },
  project: { select: { id: true, name: true } },
} as const
export type SpecificationRow = Prisma.SpecificationGetPayload<{ include: typeof whole }>

/** Every version of every line that is for every project, and of one contract's own copies where it is named; the newest first. */
export function findSpecifications(
  { prisma, actor }: LaboratoryTransaction,
  projectId?: string,
): Promise<SpecificationRow[]> {
  return prisma.specification.findMany({
    where: { labId: actor.labId, OR: [{ projectId: null }, ...(projectId === undefined ? [] : [{ projectId }])] },
    include: whole,
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
  })
}

export function findSpecification(
  { prisma, actor }: LaboratoryTransaction,
  id: string,
): Promise<SpecificationRow | null> {
  return prisma.specification.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: whole })
}

/** What tells the lines of one key apart; a line stays within its key. */
export function findLinesOf({ prisma, actor }: LaboratoryTransaction, key: string) {
  return prisma.specification.findMany({
    where: { labId: actor.labId, key },
    select: { id: true, supersedesId: true, withdrawal: { select: { specificationId: true } } },
  })
}

/** All versions of one key with their contents, the oldest first. */
export function findVersionsOf({ prisma, actor }: LaboratoryTransaction, key: string): Promise<SpecificationRow[]> {
  return prisma.specification.findMany({
    where: { labId: actor.labId, key },
    include: whole,
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  })
}

export function findProject({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.project.findUnique({ where: { labId_id: { labId: actor.labId, id } }, select: { id: true } })
}

/** How many design revisions pin each version. */
export async function countDesigns(
  { prisma, actor }: LaboratoryTransaction,
  ids: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  const counted = await prisma.designRevision.groupBy({
    by: ['specificationId'],
    where: { labId: actor.labId, specificationId: { in: [...ids] } },
    _count: { _all: true },
  })
  return new Map(counted.map(({ specificationId, _count }) => [specificationId!, _count._all]))
}

/** How many projects stand on each version now. */
export async function countProjects(
  { prisma, actor }: LaboratoryTransaction,
  ids: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  const counted = await prisma.projectSpecification.groupBy({
    by: ['specificationId'],
    where: { labId: actor.labId, specificationId: { in: [...ids] }, supersededBy: { is: null } },
    _count: { _all: true },
  })
  return new Map(counted.map(({ specificationId, _count }) => [specificationId, _count._all]))
}

/**
 * Who edits or withdraws a line of this key waits for whoever is at it; who chooses one of its versions waits for those two
 * alone, and not for others who choose.
 */
export async function lockLines(
  { prisma, actor }: LaboratoryTransaction,
  key: string,
  { toChoose = false }: { toChoose?: boolean } = {},
): Promise<void> {
  const what = `specification ${actor.labId} ${key}`
  if (toChoose) await prisma.$executeRaw`select pg_advisory_xact_lock_shared(hashtextextended(${what}, 0))`
  else await prisma.$executeRaw`select pg_advisory_xact_lock(hashtextextended(${what}, 0))`
}

export type NewSpecification = {
  readonly id: string
  readonly key: string
  readonly name: string
  readonly limits: Canonical
  /** The contract whose copy it is. */
  readonly projectId?: string | null
  readonly supersedesId?: string
  readonly reason?: string
}

/** Inserts under the next revision of its key, taken last. `limits` is stored as canonical text, with a digest. */
export async function insertSpecification(
  { prisma, actor, at }: LaboratoryTransaction,
  { limits, key, name, ...row }: NewSpecification,
): Promise<number> {
  const text = canonicalJson(limits)
  const [counter] = await prisma.$queryRaw<
    [{ number: bigint }]
  >`select next_number(${`specification:${key}`}) as number`
  const revision = Number(counter.number)
  const dig = new Uint8Array(sha256(canonicalJson({ key, revision: String(revision), name, limits })))
  await prisma.specification.createMany({
    data: [
      {
        ...row,
        labId: actor.labId,
        key,
        revision,
        name,
        origin: 'laboratory',
        limits: text,
        dig,
        byId: actor.membershipId,
        at,
      },
    ],
  })
  return revision
}

export async function insertWithdrawal(
  { prisma, actor, at }: LaboratoryTransaction,
  row: { readonly id: string; readonly specificationId: string; readonly reason: string },
): Promise<void> {
  await prisma.specificationWithdrawal.createMany({
    data: [{ ...row, labId: actor.labId, byId: actor.membershipId, at }],
  })
}

export function findWithdrawal({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.specificationWithdrawal.findUnique({ where: { labId_id: { labId: actor.labId, id } } })
}
