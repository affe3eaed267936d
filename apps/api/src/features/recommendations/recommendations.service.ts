import type { Recommend, Recommendation } from '@curebook/contract/recommendations'
import { recommendationProblems } from '@curebook/trade/design/recommendation'
import { residualOfEmulsion } from '@curebook/trade/design/residual-binder'
import type { RangeService } from '#features/range/range.service'
import { findStandingRecommendation } from '#features/range/standing-recommendation.service'
import type { Actor } from '#platform/actor'
import { type Canonical, canonicalJson } from '#platform/canonical-json'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField } from '#platform/problem'

export type RecommendationsService = ReturnType<typeof createRecommendationsService>

/** The engineer's recommended content: entered, never computed; it puts the revision into review. */
export function createRecommendationsService({ laboratory, range }: { laboratory: Laboratory; range: RangeService }) {
  const recommend = (actor: Actor, designId: string, input: Recommend) =>
    createOnce(laboratory, actor, {
      subjectKind: 'recommendation',
      id: input.id,
      input: { design: designId, ...input },
      find: async (tx) => {
        const row = await tx.prisma.recommendation.findUnique({
          where: { labId_id: { labId: actor.labId, id: input.id } },
          include: { by: true },
        })
        const { design } = await range.contextIn(tx, designId)
        return row && design.residue ? toRecommendation(row, design.residue.value) : null
      },
      create: async (tx): Promise<Recommendation> => {
        await lockRevisionOf(tx, designId)
        const { design, computed, sign } = await range.contextIn(tx, designId)
        if (design.state === 'approved')
          throw new AppError(
            'wrong-state',
            `Revision ${design.revision} is approved and does not change. Start a new revision from it.`,
          )
        if (!design.residue)
          throw invalidField(
            'emulsionPercent',
            'The residue of the emulsion is not entered yet: without it no content can be placed.',
          )
        refuseReversed(input)
        const problems = recommendationProblems(
          {
            emulsionPercent: input.emulsionPercent,
            residuePercent: design.residue.value,
            toleranceResidualPercent: input.toleranceResidualPercent,
          },
          computed.range,
          computed.range.testedSpan,
          computed.band,
          sign,
        ).filter(({ weight }) => weight === 'refuse')
        if (problems.length > 0)
          throw new AppError('refused-by-rule', problems[0]!.sentence, {
            errors: problems.map(({ sentence }) => ({ path: 'emulsionPercent', message: sentence })),
          })
        const standing = await findStandingRecommendation(tx, design.revisionId)
        if ((standing?.id ?? null) !== (input.supersedes?.id ?? null))
          throw new AppError(
            'conflict',
            standing
              ? `${standing.by.name} has recommended ${standing.emulsionPercentText} % already. Name it and give the reason to replace it.`
              : 'There is no recommendation to replace.',
            {
              extra: { stored: standing && toRecommendation(standing, design.residue.value), sent: input },
            },
          )
        const ranges: Canonical = { water: input.water, filler: input.filler, additive: input.additive }
        await tx.prisma.recommendation.createMany({
          data: [
            {
              labId: actor.labId,
              id: input.id,
              designRevisionId: design.revisionId,
              emulsionPercentText: input.emulsionPercent,
              emulsionPercent: input.emulsionPercent,
              toleranceText: input.toleranceResidualPercent,
              tolerance: input.toleranceResidualPercent,
              toleranceUnit: '% residual',
              ranges: canonicalJson(ranges),
              rationale: input.reason,
              supersedesId: input.supersedes?.id ?? null,
              reason: input.supersedes?.reason ?? null,
              byId: actor.membershipId,
              at: tx.at,
            },
          ],
        })
        await tx.prisma.designRevision.updateMany({
          where: { labId: actor.labId, id: design.revisionId },
          data: { state: 'in-review', version: { increment: 1 } },
        })
        tx.record({
          action: 'recommendation:create',
          subjectKind: 'recommendation',
          subjectId: input.id,
          projectId: design.projectId,
          topics: [`design:${designId}`, `revision:${design.revisionId}`, `project:${design.projectId}`],
          content: { design: designId, ...input } as { [key: string]: Canonical },
        })
        return toRecommendation((await findStandingRecommendation(tx, design.revisionId))!, design.residue.value)
      },
    })

  const read = (actor: Actor, designId: string, number?: number): Promise<{ recommendation: Recommendation | null }> =>
    laboratory.inLaboratory(actor, async (tx) => {
      const { design } = await range.contextIn(tx, designId, number)
      const row = await findStandingRecommendation(tx, design.revisionId)
      return { recommendation: row && design.residue ? toRecommendation(row, design.residue.value) : null }
    })

  return { recommend, read }
}

/** Two recommendations of one revision follow one another. */
async function lockRevisionOf(tx: LaboratoryTransaction, designId: string): Promise<void> {
  await tx.prisma
    .$queryRaw`select id from design where lab_id = ${tx.actor.labId}::uuid and id = ${designId}::uuid for update`
}

function refuseReversed(input: Recommend): void {
  for (const key of ['water', 'filler', 'additive'] as const)
    if (Number(input[key].from) > Number(input[key].to))
      throw invalidField(`${key}.to`, 'The range ends below where it begins.')
}

type Row = NonNullable<Awaited<ReturnType<typeof findStandingRecommendation>>>

export function toRecommendation(row: Row, residuePercent: string): Recommendation {
  const ranges = JSON.parse(row.ranges) as Pick<Recommendation, 'water' | 'filler' | 'additive'>
  return {
    id: row.id,
    emulsionPercent: row.emulsionPercentText,
    residualPercent: residualOfEmulsion(row.emulsionPercentText, residuePercent),
    toleranceResidualPercent: row.toleranceText,
    ...ranges,
    reason: row.rationale,
    by: { membershipId: row.by.id, name: row.by.name, initials: row.by.initials },
    at: row.at.toISOString(),
  }
}
