import type { ReadingDeclaration, StepDeclaration } from '../procedure/declaration.ts'
import { cautions } from './cautions.ts'
import { practiceSource } from './edition-parameter.ts'

/** What may be noted of a strip under the wheel: the cycle at which it turned tacky, and whether it was wetted. */
const noted: readonly ReadingDeclaration[] = [
  {
    key: 'tacky-from-cycle',
    label: 'Tacky from cycle',
    kind: 'count',
    unit: 'count',
    resolution: '1',
    plausible: { from: '200', to: '1000', source: practiceSource },
    optional: true,
  },
  {
    key: 'water-sprayed',
    label: 'Water sprayed',
    kind: 'choice',
    choices: [
      { key: 'no', label: 'No' },
      { key: 'yes', label: 'Yes' },
    ],
    optional: true,
  },
]

/** A strip under the loaded wheel without sand. `cycles` names the edition's number of them; `besides` is read too. */
export function wheelStep(
  { besides = [], ...text }: Pick<StepDeclaration, 'title' | 'needs'> & { besides?: readonly ReadingDeclaration[] },
  cycles: string,
): StepDeclaration {
  return {
    ...text,
    key: 'condition',
    instruction:
      'Clamp the plate in the track and run the cycles without sand. If the surface turns shiny and tacky, with a whine, note the cycle and wet the surface so that nothing sticks.',
    cautions: [cautions.wheel, cautions.alone],
    events: ['start', 'end'],
    eventLabels: { start: 'Wheel started', end: 'Wheel stopped' },
    readings: [...noted, ...besides],
    equipment: ['loaded-wheel'],
    conditions: [
      { label: 'Cycles', targetParameter: cycles },
      { label: 'Load on the wheel', targetParameter: 'wheel-load', toleranceParameter: 'wheel-load-tolerance' },
      { label: 'Room', targetParameter: 'room-temperature', toleranceParameter: 'room-temperature-tolerance' },
    ],
    runCycles: { totalParameter: cycles, perMinuteParameter: 'cycle-rate' },
  }
}
