import type { SpecimenRow } from '@curebook/contract/designs'

export const testStates = ['waiting', 'in-work', 'done', 'void', 'replaced', 'spare'] as const

/** The rows of a test and a state; an empty text asks for all. */
export function filterSpecimens<Row extends Pick<SpecimenRow, 'methodKey' | 'state'>>(
  rows: readonly Row[],
  { method, state }: { readonly method: string; readonly state: string },
): readonly Row[] {
  return rows.filter((row) => (method === '' || row.methodKey === method) && (state === '' || row.state === state))
}
