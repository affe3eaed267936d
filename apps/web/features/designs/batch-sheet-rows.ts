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

/** One table a form and batch size, small batches first: the size stands in its head. */
export function sheetTables(rows: readonly SheetRow[], form: BatchSheet['form']): readonly (readonly SheetRow[])[] {
  const tables = new Map<string, SheetRow[]>()
  for (const row of rows) {
    if (row.sheet.form !== form || row.sheet.refusal !== null) continue
    const size = row.sheet.dryAggregateG
    tables.set(size, [...(tables.get(size) ?? []), row])
  }
  return [...tables].sort(([a], [b]) => decimal(a).cmp(b)).map(([, table]) => table)
}

/** Every basis on which a residual content is known, in the order in which the sheets name them. */
export function basesOf(sheets: readonly BatchSheet[]): readonly string[] {
  return [...new Set(sheets.flatMap(({ residual }) => residual.map(({ basis }) => basis)))]
}

/** One sheet a content, lean contents first: residual binder is the same whatever is cast from it. */
export function sheetsByContent(sheets: readonly BatchSheet[]): readonly BatchSheet[] {
  const known = sheets.filter(({ residual }) => residual.length > 0)
  return [...new Map(known.map((sheet) => [sheet.mixId, sheet])).values()].sort((a, b) =>
    decimal(a.emulsionPercent).cmp(decimal(b.emulsionPercent)),
  )
}

/** Decimals of a target for the eye: a balance of 0.1 g, and one more where a small target would lose a digit. */
export function decimalsOfTarget(grams: string): number {
  const target = decimal(grams).abs()
  return target.lt(10) && target.decimalPlaces() > 1 ? 2 : 1
}
