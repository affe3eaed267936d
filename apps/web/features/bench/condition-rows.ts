import type { ConditionDeclaration, EditionParameter } from '@curebook/trade/procedure/declaration'

export type ConditionRow = {
  readonly label: string
  readonly target: EditionParameter
  /** The other end, where it is a span. */
  readonly to?: EditionParameter
  readonly tolerance?: EditionParameter
}

const least = ', at least'
const most = ', at most'

/** What must hold, a row each; “at least” and “at most” of one thing, from one source, are one row: 5 to 6 s. */
export function conditionRows(
  conditions: readonly ConditionDeclaration[],
  parameters: Readonly<Record<string, EditionParameter>>,
): readonly ConditionRow[] {
  const rows: ConditionRow[] = []
  for (const { label, targetParameter, toleranceParameter } of conditions) {
    const target = parameters[targetParameter]
    if (target === undefined) continue
    const before = rows.at(-1)
    if (before !== undefined && isSpan(before, label, target))
      rows[rows.length - 1] = { label: label.slice(0, -most.length), target: before.target, to: target }
    else
      rows.push({
        label,
        target,
        ...(toleranceParameter === undefined ? {} : { tolerance: parameters[toleranceParameter] }),
      })
  }
  return rows
}

function isSpan({ label, target, tolerance }: ConditionRow, next: string, to: EditionParameter): boolean {
  return (
    label.endsWith(least) &&
    next.endsWith(most) &&
    label.slice(0, -least.length) === next.slice(0, -most.length) &&
    tolerance === undefined &&
    target.unit === to.unit &&
    target.source === to.source &&
    target.clause === to.clause
  )
}
