import type { StepDeclaration } from '../procedure/declaration.ts'
import { cautions } from './cautions.ts'

/**
 * Into the oven and out of it again. `parameter` names the edition's temperature; its tolerance stands under the same name
 * with `-tolerance` behind it.
 */
export function ovenStep(
  text: Pick<StepDeclaration, 'key' | 'title' | 'instruction'>,
  parameter: string,
): StepDeclaration {
  return {
    ...text,
    cautions: [cautions.oven, cautions.microwave],
    events: ['start', 'end'],
    eventLabels: { start: 'In the oven', end: 'Out of the oven' },
    readings: [],
    equipment: ['oven'],
    conditions: [{ label: 'Oven', targetParameter: parameter, toleranceParameter: `${parameter}-tolerance` }],
  }
}

/** Left to cool: confirmed when it is done. */
export function coolStep(text: Pick<StepDeclaration, 'key' | 'instruction'>): StepDeclaration {
  return {
    ...text,
    title: 'Cool down',
    cautions: [],
    events: ['end'],
    eventLabels: { end: 'Cooled' },
    readings: [],
    equipment: [],
    conditions: [],
  }
}
