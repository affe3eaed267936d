import type { Prisma } from '@curebook/database/client'
import { canonicalJson, sha256, type Canonical } from '#platform/canonical-json'
import type { LaboratoryTransaction } from '#platform/laboratory'

export type SpecificationRow = Prisma.SpecificationGetPayload<Record<never, never>>

export function findSpecifications({ prisma, actor }: LaboratoryTransaction) {
  return prisma.specification.findMany({ where: { labId: actor.labId }, orderBy: [{ at: 'desc' }, { id: 'desc' }] })
}

export function findSpecification({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.specification.findUnique({ where: { labId_id: { labId: actor.labId, id } } })
}

/** Inserts under the next revision of its key, taken last. `limits` is stored as canonical text, with a digest. */
export async function insertSpecification(
  { prisma, actor, at }: LaboratoryTransaction,
  { id, key, name, limits }: { id: string; key: string; name: string; limits: Canonical },
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
        labId: actor.labId,
        id,
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
