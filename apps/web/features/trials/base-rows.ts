import type { Mix } from '@curebook/contract/designs'
import type { TrialCup } from '@curebook/contract/trials'
import { suggestedWater } from '@curebook/trade/design/trial-base'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { digitsOf } from '#features/designs/plan-rows.ts'

export const baseShares = ['waterPercent', 'additivePercent', 'fillerPercent'] as const
export type BaseShare = (typeof baseShares)[number]
/** One content with the shares that it is to get, as typed. */
export type BaseRow = {
  readonly mixId: string
  readonly emulsionPercent: string
  /** Its water was set by hand, which the step leaves alone. */
  readonly waterByHand?: boolean
} & Readonly<Record<BaseShare, string>>

/** A first guess from the cup: its additive and filler everywhere, its water less what the emulsion brings. */
export function baseRows(cup: TrialCup, mixes: readonly Mix[], perPercent: string): readonly BaseRow[] {
  return mixes.map(({ id, emulsionPercent }) => ({
    mixId: id,
    emulsionPercent,
    waterPercent: waterAt(cup, emulsionPercent, perPercent),
    additivePercent: cup.additive.value,
    fillerPercent: cup.filler.value,
  }))
}

/** Water by another step, where nobody set it by hand. */
export function withStep(cup: TrialCup, rows: readonly BaseRow[], perPercent: string): readonly BaseRow[] {
  return rows.map((row) =>
    row.waterByHand === true ? row : { ...row, waterPercent: waterAt(cup, row.emulsionPercent, perPercent) },
  )
}

/** One share as typed. */
export function withShare(row: BaseRow, share: BaseShare, typed: string): BaseRow {
  return { ...row, [share]: typed, ...(share === 'waterPercent' ? { waterByHand: true } : {}) }
}

/** The cup's own water where a content or the step is no number yet. */
export function waterAt(cup: TrialCup, emulsion: string, perPercent: string): string {
  const [content, step] = [readTypedNumber(emulsion, { unit: '%' }), readTypedNumber(perPercent, { unit: '%' })]
  if (!content.ok || !step.ok) return cup.water.value
  return suggestedWater(
    { emulsionPercent: cup.emulsion.value, waterPercent: cup.water.value },
    content.value,
    step.value,
  )
}

export function contentsOf(rows: readonly BaseRow[]) {
  return rows.map(({ mixId, ...row }) => ({
    mixId,
    ...Object.fromEntries(baseShares.map((share) => [share, digitsOf(row[share])])),
  }))
}
