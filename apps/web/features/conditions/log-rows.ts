import type { ConditionLog, ConditionValue } from '@curebook/contract/conditions'

/** A line of the log: a value, or a time of which nothing is known. */
export type LogLine =
  | { readonly kind: 'value'; readonly at: string; readonly value: ConditionValue }
  | { readonly kind: 'gap'; readonly at: string; readonly until: string }

/** Values and gaps by their times, the newest first, and no more lines than are read. */
export function linesOf({ values, gaps }: Pick<ConditionLog, 'values' | 'gaps'>, most: number): readonly LogLine[] {
  const lines: LogLine[] = [
    ...values.map((value) => ({ kind: 'value', at: value.at, value }) as const),
    ...gaps.map(({ from, until }) => ({ kind: 'gap', at: from, until }) as const),
  ]
  return lines
    .toSorted((one, other) => Date.parse(other.at) - Date.parse(one.at) || (one.kind === 'gap' ? -1 : 1))
    .slice(0, most)
}
