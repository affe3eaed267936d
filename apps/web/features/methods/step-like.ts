import type { ReadingDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'

/** An earlier step that is done in the same way, by its number from 1, and what is read otherwise than there. */
export type StepLike = { readonly number: number; readonly otherReadings: readonly ReadingDeclaration[] }

/** Whether a step repeats an earlier one, as the twists of a series do: then a page says so and need not say it all again. */
export function stepLike(steps: readonly StepDeclaration[], index: number): StepLike | undefined {
  const step = steps[index]
  const at = steps.findIndex((one, before) => before < index && step !== undefined && wayOf(one) === wayOf(step))
  if (step === undefined || at < 0) return undefined
  const read = new Set(steps[at]!.readings.map((reading) => JSON.stringify(reading)))
  return { number: at + 1, otherReadings: step.readings.filter((reading) => !read.has(JSON.stringify(reading))) }
}

/** How a step is done, without its name and without what is asked about or may be left out. */
function wayOf({ instruction, cautions, events, equipment, conditions, readings }: StepDeclaration): string {
  return JSON.stringify([instruction, cautions, events, equipment, conditions, readings.map(({ key }) => key)])
}
