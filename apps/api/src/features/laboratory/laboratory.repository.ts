import type { LaboratorySettings } from '@curebook/contract/laboratory'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { toColumns } from './laboratory.mapper.ts'

export function findLaboratory({ prisma, actor }: LaboratoryTransaction) {
  return prisma.laboratory.findUniqueOrThrow({ where: { id: actor.labId } })
}

/** False when the version is not the stored one any more. */
export async function updateLaboratory(
  { prisma, actor }: LaboratoryTransaction,
  version: number,
  settings: Partial<LaboratorySettings>,
): Promise<boolean> {
  const { count } = await prisma.laboratory.updateMany({
    where: { id: actor.labId, version },
    data: { ...toColumns(settings), version: { increment: 1 } },
  })
  return count === 1
}
