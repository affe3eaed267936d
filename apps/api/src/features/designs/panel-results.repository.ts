import type { Prisma } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'

const withFacts = {
  by: { select: personColumns },
  designRevision: { select: { number: true } },
  attachment: { select: { id: true, name: true, mediaType: true, sha256: true } },
  supersedes: { select: { id: true, valueText: true, unit: true } },
} satisfies Prisma.ResultInclude

export type PanelResultRow = Prisma.ResultGetPayload<{ include: typeof withFacts }>

/** Keys of values that stand on a design and in no panel. */
const otherKeys = ['residue', 'aggregate-moisture']

export function findPanelResult({ prisma, actor }: LaboratoryTransaction, id: string): Promise<PanelResultRow | null> {
  return prisma.result.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: withFacts })
}

/**
 * Entered results of the panel as they stand for a revision: of each property the last one of the newest revision up to
 * it, none of them replaced. An approved revision keeps what stood when it was signed.
 */
export async function findPanelResults(
  { prisma, actor }: LaboratoryTransaction,
  designId: string,
  upTo: number,
): Promise<PanelResultRow[]> {
  const rows = await prisma.result.findMany({
    where: {
      labId: actor.labId,
      level: 'revision',
      key: { notIn: otherKeys },
      designRevision: { is: { designId, number: { lte: upTo } } },
      supersededBy: { is: null },
    },
    include: withFacts,
  })
  const newest = new Map<string, PanelResultRow>()
  for (const row of rows) {
    const other = newest.get(row.key)
    if (!other || (row.designRevision?.number ?? 0) > (other.designRevision?.number ?? 0)) newest.set(row.key, row)
  }
  return [...newest.values()].sort((a, b) => (a.key < b.key ? -1 : 1))
}
