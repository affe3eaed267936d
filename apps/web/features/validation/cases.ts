import type { Validation } from '@curebook/contract/validation'

export type CaseRow = Validation['rows'][number]
/** One outcome of a case; `first` says the inputs, which its other outcomes share. */
export type OutcomeRow = CaseRow & { readonly id: string; readonly first: boolean }
export type MethodCases = { readonly method: string; readonly rows: readonly OutcomeRow[] }

/** Outcomes by method, those of one case together; a case in which anything differs stands first. */
export function casesByMethod(rows: readonly CaseRow[]): readonly MethodCases[] {
  const methods = grouped(rows, ({ method }) => method)
  return [...methods].map(([method, own]) => {
    const cases = [...grouped(own, ({ title, source }) => `${title} ${source}`)]
    const differs = (outcomes: readonly CaseRow[]) => outcomes.some(({ agrees }) => !agrees)
    return {
      method,
      rows: cases
        .toSorted(([, one], [, other]) => Number(differs(other)) - Number(differs(one)))
        .flatMap(([key, outcomes]) =>
          outcomes.map((row, index) => ({ ...row, id: `${key} ${row.unit} ${index}`, first: index === 0 })),
        ),
    }
  })
}

/** Rows by a key, both in the order in which they first come. */
function grouped<Row>(rows: readonly Row[], keyOf: (row: Row) => string): ReadonlyMap<string, readonly Row[]> {
  const groups = new Map<string, Row[]>()
  for (const row of rows) groups.set(keyOf(row), [...(groups.get(keyOf(row)) ?? []), row])
  return groups
}
