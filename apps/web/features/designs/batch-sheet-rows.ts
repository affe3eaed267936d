import type { BatchSheet } from '@curebook/contract/designs'
import { decimal } from '@curebook/trade/quantity/decimal'

export type SheetRow = {
  readonly key: string
  readonly sheet: BatchSheet
  /** Every method that is cast from this sheet. */
  readonly methodKeys: readonly string[]
}

/** One row a content and form: methods that are cast from the same batch size share a sheet. Lean contents first. */
export function sheetRows(sheets: readonly BatchSheet[]): readonly SheetRow[] {
  const rows = new Map<string, { sheet: BatchSheet; methodKeys: string[] }>()
  for (const sheet of sheets) {
    const key = [sheet.mixId, sheet.form, sheet.dryAggregateG, sheet.refusal ?? ''].join(' ')
    const standing = rows.get(key)
    if (standing === undefined) rows.set(key, { sheet, methodKeys: [sheet.methodKey] })
    else if (!standing.methodKeys.includes(sheet.methodKey)) standing.methodKeys.push(sheet.methodKey)
  }
  return [...rows]
    .map(([key, row]) => ({ key, ...row }))
    .sort(
      (a, b) =>
        a.sheet.form.localeCompare(b.sheet.form) ||
        decimal(a.sheet.emulsionPercent).cmp(decimal(b.sheet.emulsionPercent)),
    )
}

/** Every basis on which a residual content is known, in the order in which the sheets name them. */
export function basesOf(sheets: readonly BatchSheet[]): readonly string[] {
  return [...new Set(sheets.flatMap(({ residual }) => residual.map(({ basis }) => basis)))]
}

/** Decimals of a target for the eye: a balance of 0.1 g, and one more below 10 g, so that an additive is not lost. */
export function decimalsOfTarget(grams: string): number {
  return decimal(grams).abs().lt(10) ? 2 : 1
}
