import type { LaboratoryTransaction } from '#platform/laboratory'

/** The recommendation of a revision that stands, with who made it; null while none is made. */
export function findStandingRecommendation({ prisma, actor }: LaboratoryTransaction, revisionId: string) {
  return prisma.recommendation.findFirst({
    where: { labId: actor.labId, designRevisionId: revisionId, supersededBy: { is: null } },
    include: { by: { select: { id: true, name: true, initials: true } } },
  })
}
