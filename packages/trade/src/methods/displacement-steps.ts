import type { ReadingDeclaration, StepDeclaration, WindowDeclaration } from '../procedure/declaration.ts'
import { cautions } from './cautions.ts'
import { practiceSource } from './edition-parameter.ts'
import { coolStep, ovenStep } from './oven-steps.ts'
import { wheelStep } from './wheel-step.ts'

const span = (from: string, to: string) => ({ from, to, source: practiceSource })

const calliper = (
  key: string,
  label: string,
  plausible: NonNullable<ReadingDeclaration['plausible']>,
): readonly ReadingDeclaration[] => {
  const mid: ReadingDeclaration = {
    key,
    label: `${label}, at mid-length`,
    kind: 'number',
    unit: 'mm',
    resolution: '0.01',
    plausible,
  }
  return [mid, { ...mid, key: `${key}-quarter`, label: `${label}, at a quarter point`, repeats: 2, optional: true }]
}

const mass = (key: string, label: string, from: string, to: string): ReadingDeclaration => ({
  key,
  label,
  kind: 'number',
  unit: 'g',
  resolution: '0.01',
  instrument: 'balance',
  plausible: span(from, to),
  optional: true,
})

/** A thick strip from casting to its weighings in air and water. */
export const displacementSteps: readonly StepDeclaration[] = [
  {
    key: 'cast',
    title: 'Cast the thick strip',
    instruction:
      'Use a numbered plate and the thick mould. Fill it with the mix, strike off and lift the mould when the mix stands; the sides stay upright. Mark the code on the plate.',
    cautions: [cautions.emulsion, cautions.filler],
    events: ['start'],
    eventLabels: { start: 'Cast' },
    readings: [{ key: 'plate', label: 'Plate number', kind: 'text', optional: true }],
    equipment: [],
    conditions: [
      { label: 'Mould, thickness', targetParameter: 'mould-thickness' },
      { label: 'Mould, width', targetParameter: 'mould-width' },
      { label: 'Mould, length', targetParameter: 'mould-length' },
    ],
  },
  ovenStep(
    {
      key: 'cure',
      title: 'Cure in the oven',
      instruction: 'Dry to constant mass, checked on the richest strips, weighed warm against warm.',
    },
    'cure-temperature',
  ),
  coolStep({ key: 'cool', instruction: 'Let the strip cool to room temperature before it is measured.' }),
  {
    key: 'measure-before',
    title: 'Measure before the wheel',
    instruction:
      'Measure width and thickness at mid-length with the calliper and mark the place; the quarter points too if wanted, one reading for each. After the wheel these numbers can never be had again.',
    cautions: [],
    events: [],
    readings: [
      {
        key: 'thickness-over',
        label: 'Thickness is measured over',
        kind: 'choice',
        choices: [
          { key: 'strip', label: 'The strip alone' },
          { key: 'plate', label: 'Strip and plate: the plate is taken off' },
        ],
      },
      {
        key: 'plate-thickness',
        label: 'Thickness of the plate, if measured',
        kind: 'number',
        unit: 'mm',
        resolution: '0.01',
        plausible: span('0.5', '1.5'),
        optional: true,
      },
      ...calliper('width', 'Width', span('48', '54')),
      ...calliper('thickness', 'Thickness', span('11', '16')),
    ],
    equipment: [],
    conditions: [],
  },
  wheelStep(
    {
      title: 'Run the wheel',
      besides: [{ key: 'observation', label: 'What was seen', kind: 'text', optional: true }],
      needs: ['measure-before'],
    },
    'cycles',
  ),
  {
    key: 'measure-after',
    title: 'Measure after the wheel',
    instruction: 'Measure width and thickness at the marked places, thickness over the same as before.',
    cautions: [],
    events: [],
    readings: [...calliper('width', 'Width', span('48', '58')), ...calliper('thickness', 'Thickness', span('9', '16'))],
    equipment: [],
    conditions: [],
  },
  {
    key: 'weigh-in-water',
    title: 'Weigh in air and in water, for the specific gravity',
    instruction:
      'Take the cold strip off its plate, or weigh it with the plate and the plate alone, both in air and in water: the plate’s own lift has to be taken off too. Weigh dry in air, then hanging in water without bubbles. A porous strip is blotted and weighed once more, surface dry.',
    cautions: [],
    events: [],
    readings: [
      {
        key: 'weighed-as',
        label: 'Weighed',
        kind: 'choice',
        choices: [
          { key: 'alone', label: 'Strip alone' },
          { key: 'plate', label: 'With its plate: the plate is taken off' },
        ],
        optional: true,
      },
      mass('plate-in-air', 'Plate alone, in air', '135', '165'),
      mass('plate-in-water', 'Plate alone, in water', '115', '145'),
      mass('in-air', 'Dry, in air', '350', '670'),
      mass('in-water', 'In water', '170', '400'),
      mass('surface-dry', 'Surface dry, after the water', '350', '680'),
      {
        key: 'water-temperature',
        label: 'Water, temperature',
        kind: 'number',
        unit: '°C',
        resolution: '0.1',
        plausible: span('20', '28'),
        optional: true,
        instrument: 'thermometer',
      },
    ],
    equipment: ['balance'],
    conditions: [],
  },
]

/** The cure of the strip has a lower end only. */
export const displacementWindows: readonly WindowDeclaration[] = [
  {
    key: 'cure',
    label: 'Cure',
    step: 'cure',
    act: 'end',
    after: { step: 'cure', act: 'start' },
    earliestParameter: 'cure-earliest',
    late: 'finding',
  },
]
