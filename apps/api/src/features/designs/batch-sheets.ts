import type { BatchSheet } from '@curebook/contract/designs'
import type { ItemForm } from '@curebook/contract/item-forms'
import { batchPortion } from '@curebook/trade/design/batch-portion'
import { batchSheet, type BatchSheetOutcome } from '@curebook/trade/design/batch-sheet'
import { residualBases, residualBinder } from '@curebook/trade/design/residual-binder'
import type { EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { parameterOf } from '@curebook/trade/procedure/evaluation'
import { digitsOf } from '#platform/row-values'
import type { MixRow, RevisionRow } from './designs.repository.ts'

/**
 * What a sheet is made for: one content, cast for one method, by the batch edition that its tests are pinned to, and by the
 * method's own where that says how much of the mix it takes.
 */
export type SheetCase = {
  mix: MixRow
  method: Pick<MethodDeclaration, 'key' | 'form' | 'portionParameter'>
  parameters: EditionParameters
  own: EditionParameters
  /** Tests of the specimens that are cast by it. */
  testIds: readonly string[]
}

/** The batch sheet of one content; what cannot be computed is said in a sentence instead. */
export function sheetOf(revision: RevisionRow, sheet: SheetCase): BatchSheet {
  const { mix, method, parameters, own, testIds } = sheet
  const dryAggregateG = batchPortion(method, { own, batch: parameters })
  const moisture = revision.moistureResult?.value
  const moisturePercent = moisture ? digitsOf(moisture) : null
  const outcome = moisturePercent === null ? notYet : sheetOutcome(mix, dryAggregateG, moisturePercent)
  return {
    mixId: mix.id,
    emulsionPercent: mix.emulsionPercentText,
    form: method.form as ItemForm,
    methodKey: method.key,
    testIds: [...testIds],
    dryAggregateG,
    moisturePercent,
    ...fractionOf(revision, method.form, parameters),
    rows: outcome.ok ? outcome.sheet.rows.map((row) => ({ ...row })) : [],
    residual: outcome.ok ? residualOf(revision, dryAggregateG, outcome) : [],
    refusal: outcome.ok ? null : outcome.refusal.sentence,
  }
}

const notYet = {
  ok: false,
  refusal: {
    sentence:
      'The moisture of the aggregate is not entered yet, so the water cannot be worked out. Enter it with the design; oven-dry aggregate has 0 %.',
  },
} as const

function sheetOutcome(mix: MixRow, dryAggregateG: string, moisturePercent: string): BatchSheetOutcome {
  return batchSheet({
    dryAggregateG,
    moisturePercent,
    emulsionPercent: digitsOf(mix.emulsionPercent),
    waterPercent: digitsOf(mix.waterPercent),
    fillerPercent: digitsOf(mix.fillerPercent),
    additivePercent: digitsOf(mix.additivePercent),
  })
}

/** A disc is cast from the fraction that its template takes; everything else from the whole grading, as far as its mould takes it. */
function fractionOf({ fractionUsed, scalpedPercent }: RevisionRow, form: string, parameters: EditionParameters) {
  if (form !== 'disc') return { fractionUsed: 'whole grading', scalpedPercent: '' }
  const { value, unit } = parameterOf({ parameters }, 'disc-largest-particle')
  return { fractionUsed: fractionUsed || `passing ${value} ${unit}`, scalpedPercent }
}

/** Residual binder as planned, on each basis, where the residue is known. */
function residualOf(
  { residueResult }: RevisionRow,
  dryAggregateG: string,
  { sheet }: BatchSheetOutcome & { ok: true },
): BatchSheet['residual'] {
  if (!residueResult?.value) return []
  const target = (component: string) => sheet.rows.find((row) => row.component === component)!.targetG
  const { percent } = residualBinder({
    dryAggregateG,
    fillerG: target('filler'),
    emulsionG: target('emulsion'),
    residuePercent: digitsOf(residueResult.value),
  })
  return residualBases.map((basis) => ({ basis, percent: percent[basis] }))
}
