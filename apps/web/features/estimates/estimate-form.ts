import type { EstimateQuestion } from './estimates.queries.ts'

/** The fields of the question in their order, each with the unit it is typed in; a film stands in micrometres. */
export const estimateRows = [
  { field: 'apparentGravity', unit: undefined },
  { field: 'absorption', unit: '%' },
  { field: 'binderGravity', unit: undefined },
  { field: 'film', unit: undefined },
  { field: 'filler', unit: '%' },
] as const

/** What was typed into the form; an empty field is not asked with. */
export function questionOf(form: { readonly get: (name: string) => unknown }): EstimateQuestion {
  return Object.fromEntries(
    estimateRows.flatMap(({ field }) => {
      const value = form.get(field)
      const typed = typeof value === 'string' ? value.trim() : ''
      return typed === '' ? [] : [[field, typed]]
    }),
  )
}

/** Whether two questions ask for the same. */
export function asksTheSame(one: EstimateQuestion, other: EstimateQuestion): boolean {
  return estimateRows.every(({ field }) => one[field] === other[field])
}
