import type { Prisma } from '@curebook/database/client'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'

const sieves = { select: { sizeText: true, passingText: true }, orderBy: { n: 'asc' } } as const
const withFacts = {
  by: { select: personColumns },
  designRevision: { select: { number: true, designId: true } },
  attachment: { select: { id: true, name: true, mediaType: true, sha256: true } },
  sieves,
  supersedes: { select: { id: true, sieves } },
} satisfies Prisma.GradationInclude

export type GradationRow = Prisma.GradationGetPayload<{ include: typeof withFacts }>
export type NewGradationRow = Prisma.GradationCreateManyInput
export type NewSieveRow = Omit<Prisma.GradationSieveCreateManyInput, 'labId' | 'gradationId'>

export function findGradation({ prisma, actor }: LaboratoryTransaction, id: string): Promise<GradationRow | null> {
  return prisma.gradation.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: withFacts })
}

/** The gradation that stands for a revision: the last one of the newest revision up to it. */
export function findStandingGradation(
  { prisma, actor }: LaboratoryTransaction,
  designId: string,
  upTo: number,
): Promise<GradationRow | null> {
  return prisma.gradation.findFirst({
    where: {
      labId: actor.labId,
      designRevision: { is: { designId, number: { lte: upTo } } },
      supersededBy: { is: null },
    },
    include: withFacts,
    orderBy: { designRevision: { number: 'desc' } },
  })
}

export async function insertGradation(
  { prisma }: LaboratoryTransaction,
  row: NewGradationRow,
  rows: readonly NewSieveRow[],
): Promise<LedgerRow[]> {
  const sieveRows = rows.map((sieve) => ({ ...sieve, labId: row.labId, gradationId: row.id }))
  await prisma.gradation.createMany({ data: [row] })
  await prisma.gradationSieve.createMany({ data: sieveRows })
  return [ledgerContentOf('gradation', row), ...sieveRows.map((sieve) => ledgerContentOf('gradation_sieve', sieve))]
}
