import type { ItemForm } from './declaration.ts'

/** How long a person's hands are at one act, for planning only: no window is judged by it. */
export type PersonMinutes = {
  readonly form: ItemForm
  /** Step at which the work begins. */
  readonly step: string
  readonly label: string
  readonly people: number
  readonly from: number
  readonly to: number
}

/** Where every number of the table comes from. */
export const personMinutesSource = 'common practice, no source'

/**
 * Hands-on work by act, in minutes of each person at it; common practice, no source. Casting counts from the batch's weighing
 * to the struck specimen; sanding includes brushing and W2. What is not listed (a load in or out of an oven) counts nothing.
 */
export const personMinutes: readonly PersonMinutes[] = [
  { form: 'disc', step: 'weigh-components', label: 'Cast a disc', people: 2, from: 9, to: 9 },
  { form: 'disc', step: 'weigh-before', label: 'Weigh a disc in a rack', people: 1, from: 1, to: 1.5 },
  { form: 'disc', step: 'abrade', label: 'Wet track run with change', people: 1, from: 13, to: 15 },
  { form: 'disc', step: 'weigh-after', label: 'Weigh a disc in a rack', people: 1, from: 1, to: 1.5 },
  { form: 'strip', step: 'weigh-components', label: 'Cast a strip', people: 2, from: 8, to: 8 },
  { form: 'strip', step: 'condition', label: '1000 cycles, with change', people: 1, from: 29, to: 29 },
  { form: 'strip', step: 'dry', label: 'Wash a strip', people: 1, from: 3, to: 3 },
  { form: 'strip', step: 'sand', label: 'Sand, run, weigh', people: 1, from: 11, to: 11 },
]

/**
 * The hands-on minutes of the act that is next, the longer end; null where the table has none for it. What follows a start
 * (taking the strip off after its cycles) counted with the start already.
 */
export function personMinutesOf(
  form: ItemForm,
  step: string | null,
  act: 'start' | 'end' | 'reading' | null,
): number | null {
  if (step === null || act === 'end') return null
  return personMinutes.find((one) => one.form === form && one.step === step)?.to ?? null
}
