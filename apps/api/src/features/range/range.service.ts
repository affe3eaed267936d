import type { Design } from '@curebook/contract/designs'
import type { AskedCount } from '@curebook/contract/panel-tests'
import type { RangeView, WhatIf } from '@curebook/contract/range'
import { residualOfEmulsion } from '@curebook/trade/design/residual-binder'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { DecimalSign } from '@curebook/trade/quantity/display'
import type { Specification } from '@curebook/trade/specification/specification'
import { rowsSqlOf } from '#platform/sql-rows'
import type { DesignsService } from '#features/designs/designs.service'
import type { SpecificationsService } from '#features/specifications/specifications.service'
import type { Actor } from '#platform/actor'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { askedCountsIn } from './asked-counts.ts'
import { designRange, type DesignRange } from './design-range.ts'
import { toRangeView } from './range.mapper.ts'
import { findStandingRecommendation } from './standing-recommendation.service.ts'
import { leavingOut } from './what-if.ts'

export type RangeService = ReturnType<typeof createRangeService>
export type RangeDeps = {
  laboratory: Laboratory
  designs: DesignsService
  specifications: SpecificationsService
  methods: readonly MethodDeclaration[]
}

/** All that the range of a revision stands on and gives, in one transaction. */
export type RangeContext = {
  readonly design: Design
  readonly rules: Specification
  readonly sign: DecimalSign
  readonly counts: readonly AskedCount[]
  readonly computed: DesignRange
  readonly view: RangeView
  /** The same for a range computed from other points. */
  readonly viewOf: (computed: DesignRange) => RangeView
}

/** Curves, acceptable range and panel of a revision, computed when read and frozen when signed. */
export function createRangeService({ laboratory, designs, specifications, methods }: RangeDeps) {
  async function contextIn(tx: LaboratoryTransaction, designId: string, number?: number): Promise<RangeContext> {
    const design = await designs.readIn(tx, designId, number)
    const rules = await specifications.rulesIn(tx, design.specification.id)
    if (!rules) throw new Error(`Design ${designId} has no specification`)
    const sign = await decimalSignIn(tx)
    const computed = await designRange(rowsSqlOf(tx), { design, rules, methods, sign })
    const recommendation = await findStandingRecommendation(tx, design.revisionId)
    const content =
      recommendation && design.residue
        ? {
            emulsionPercent: recommendation.emulsionPercentText,
            residualPercent: residualOfEmulsion(recommendation.emulsionPercentText, design.residue.value),
          }
        : null
    const entered = await designs.panelResultsIn(tx, designId, design.revision)
    const gradation = await designs.gradationIn(tx, designId, design.revision)
    const counts = await askedCountsIn(rowsSqlOf(tx), methods, design)
    const viewOf = (from: DesignRange) =>
      toRangeView(from, { design, rules, content, sign, entered, gradation, methods, counts })
    return { design, rules, sign, counts, computed, view: viewOf(computed), viewOf }
  }

  const read = (actor: Actor, designId: string, number?: number): Promise<RangeView> =>
    laboratory.inLaboratory(actor, async (tx) => (await contextIn(tx, designId, number)).view)

  /** The range without some specimens: computed from what stands, answered, and kept nowhere. */
  const whatIf = (actor: Actor, designId: string, without: readonly string[], number?: number): Promise<WhatIf> =>
    laboratory.inLaboratory(actor, async (tx) => {
      const { computed, viewOf } = await contextIn(tx, designId, number)
      const { computed: left, without: named } = leavingOut(computed, without)
      return { recorded: false, without: [...named], range: viewOf(left) }
    })

  return { read, whatIf, contextIn }
}

/** The laboratory's decimal sign, as sentences are written with it. */
export async function decimalSignIn({ prisma, actor }: LaboratoryTransaction): Promise<DecimalSign> {
  const { decimalSign } = await prisma.laboratory.findUniqueOrThrow({
    where: { id: actor.labId },
    select: { decimalSign: true },
  })
  return decimalSign === 'comma' ? ',' : '.'
}
