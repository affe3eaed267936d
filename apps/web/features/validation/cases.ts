import type { Validation } from '@curebook/contract/validation'

export type CaseRow = Validation['rows'][number]
export type Case = {
  readonly key: string
  readonly method: string
  readonly title: string
  readonly source: string
  readonly inputs: CaseRow['inputs']
  readonly rows: readonly CaseRow[]
  readonly agrees: boolean
}

/** Rows of one case together: the same inputs, several outcomes. Cases that differ stand first. */
export function casesOf(rows: readonly CaseRow[]): readonly Case[] {
  const cases = new Map<string, Case>()
  for (const row of rows) {
    const key = `${row.method} ${row.title} ${row.source}`
    const before = cases.get(key)
    cases.set(key, {
      key,
      method: row.method,
      title: row.title,
      source: row.source,
      inputs: row.inputs,
      rows: [...(before?.rows ?? []), row],
      agrees: (before?.agrees ?? true) && row.agrees,
    })
  }
  return [...cases.values()].sort((one, other) => Number(one.agrees) - Number(other.agrees))
}
