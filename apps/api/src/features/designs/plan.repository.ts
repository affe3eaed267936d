import type { Prisma } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'
import type { StandingReplicates } from './series-plan.ts'

/** The highest replicate of each content and method over all revisions of a design. */
export function findReplicates(
  { prisma, actor }: LaboratoryTransaction,
  designId: string,
): Promise<StandingReplicates[]> {
  return prisma.$queryRaw<StandingReplicates[]>`
    select t.method_key as "methodKey", m.emulsion_percent::text as "emulsionPercent", max(t.replicate)::int as highest
      from design_revision r
      join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id
      join mix m on m.lab_id = t.lab_id and m.id = t.mix_id
     where r.lab_id = ${actor.labId}::uuid and r.design_id = ${designId}::uuid and t.method_key <> 'batch'
     group by t.method_key, m.emulsion_percent`
}

/** The highest replicate of a test of the materials over all revisions of a design; 0 where there is none. */
export async function findMaterialReplicates(
  { prisma, actor }: LaboratoryTransaction,
  designId: string,
  methodKey: string,
): Promise<number> {
  const { _max } = await prisma.testEvent.aggregate({
    where: { labId: actor.labId, methodKey, mixId: null, designRevision: { designId } },
    _max: { replicate: true },
  })
  return _max.replicate ?? 0
}

type Row<T> = Omit<T, 'labId'>

/** Everything that a plan makes, in the order in which rows refer to one another. */
export type PlanRows = {
  mixes: Row<Prisma.MixCreateManyInput>[]
  items: Row<Prisma.ItemCreateManyInput>[]
  parents: Row<Prisma.ItemParentCreateManyInput>[]
  tests: Row<Prisma.TestEventCreateManyInput>[]
  standings: Row<Prisma.TestNowCreateManyInput>[]
  dues: Row<Prisma.DueCreateManyInput>[]
}

export async function insertMixes({ prisma, actor }: LaboratoryTransaction, mixes: PlanRows['mixes']): Promise<void> {
  await prisma.mix.createMany({ data: mixes.map((row) => ({ ...row, labId: actor.labId })) })
}

export async function insertPlanned(
  { prisma, actor }: LaboratoryTransaction,
  rows: Omit<PlanRows, 'mixes'>,
): Promise<void> {
  const here = <T>(row: T) => ({ ...row, labId: actor.labId })
  await prisma.item.createMany({ data: rows.items.map(here) })
  await prisma.itemParent.createMany({ data: rows.parents.map(here) })
  await prisma.testEvent.createMany({ data: rows.tests.map(here) })
  await prisma.testNow.createMany({ data: rows.standings.map(here) })
  await prisma.due.createMany({ data: rows.dues.map(here) })
}

/** The methods of a revision's series: the edition pinned last, and the greatest number of replicates. */
export async function saveDesignMethod(
  { prisma, actor }: LaboratoryTransaction,
  row: { id: string; designRevisionId: string; methodKey: string; editionId: string; replicates: number },
  standing: { id: string; replicates: number } | undefined,
): Promise<void> {
  if (!standing) {
    await prisma.designMethod.createMany({ data: [{ ...row, labId: actor.labId }] })
    return
  }
  await prisma.designMethod.updateMany({
    where: { labId: actor.labId, id: standing.id },
    data: {
      editionId: row.editionId,
      replicates: Math.max(standing.replicates, row.replicates),
      version: { increment: 1 },
    },
  })
}
