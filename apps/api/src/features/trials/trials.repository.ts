import type { Prisma } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'

const withBy = { by: { select: personColumns } } satisfies Prisma.TrialCupInclude

export type CupRow = Prisma.TrialCupGetPayload<{ include: typeof withBy }>
/** A row of `trial_cup` as it is written. */
export type NewCupRow = Prisma.TrialCupCreateManyInput

export function findCup({ prisma, actor }: LaboratoryTransaction, id: string): Promise<CupRow | null> {
  return prisma.trialCup.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: withBy })
}

/** Cups of a design up to a revision as they stand, in the order in which they were mixed. */
export function findCups({ prisma, actor }: LaboratoryTransaction, designId: string, upTo: number): Promise<CupRow[]> {
  return prisma.trialCup.findMany({
    where: {
      labId: actor.labId,
      designRevision: { is: { designId, number: { lte: upTo } } },
      supersededBy: { is: null },
    },
    include: withBy,
    orderBy: { number: 'asc' },
  })
}

export async function insertCup({ prisma }: LaboratoryTransaction, row: NewCupRow): Promise<void> {
  await prisma.trialCup.createMany({ data: [row] })
}

const withCup = {
  ...withBy,
  trialCup: { select: { number: true, designRevisionId: true } },
} satisfies Prisma.TrialBaseInclude
export type BaseRow = Prisma.TrialBaseGetPayload<{ include: typeof withCup }>

export function findBase({ prisma, actor }: LaboratoryTransaction, id: string): Promise<BaseRow | null> {
  return prisma.trialBase.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: withCup })
}

/** The base chosen last for a design up to a revision: whoever waited for another's choice chose after it. */
export function findLastBase({ prisma, actor }: LaboratoryTransaction, designId: string, upTo: number) {
  return prisma.trialBase.findFirst({
    where: { labId: actor.labId, designRevision: { is: { designId, number: { lte: upTo } } } },
    include: withCup,
    orderBy: [{ writtenAt: 'desc' }, { id: 'desc' }],
  })
}

export async function insertBase(
  { prisma, actor, at }: LaboratoryTransaction,
  row: { id: string; designRevisionId: string; trialCupId: string; contents: string },
): Promise<void> {
  await prisma.trialBase.createMany({ data: [{ ...row, labId: actor.labId, byId: actor.membershipId, at }] })
}
