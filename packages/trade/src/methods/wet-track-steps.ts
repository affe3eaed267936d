import type {
  ConditionDeclaration,
  ReadingDeclaration,
  StepDeclaration,
  WindowDeclaration,
} from '../procedure/declaration.ts'
import { cautions } from './cautions.ts'
import { practiceSource } from './edition-parameter.ts'
import { coolStep, ovenStep } from './oven-steps.ts'

const mass = (from: string): ReadingDeclaration => ({
  key: 'mass',
  label: 'Mass',
  kind: 'number',
  unit: 'g',
  resolution: '0.1',
  instrument: 'balance',
  plausible: { from, to: '860', source: practiceSource },
})

const held = (label: string, key: string): ConditionDeclaration => ({
  label,
  targetParameter: key,
  toleranceParameter: `${key}-tolerance`,
})

/** The steps of a disc, from casting to the last weighing. @param words the soak in words: "1-hour soak" */
export const wetTrackSteps = (words: string): readonly StepDeclaration[] => [
  {
    key: 'cast',
    title: 'Cast the disc',
    instruction:
      'Mark the code on the felt with a paint marker, pour the mix into the template, strike off in one pass and lift the template when the mix stands. A surface that is not flat and even is cast again.',
    cautions: [cautions.emulsion, cautions.filler],
    events: ['start'],
    eventLabels: { start: 'Cast' },
    readings: [],
    equipment: [],
    conditions: [],
  },
  ovenStep(
    {
      key: 'cure',
      title: 'Cure in the oven',
      instruction:
        'Dry to constant mass. Check it on the richest discs and those put in last, weighed warm against warm.',
    },
    'cure-temperature',
  ),
  coolStep({
    key: 'cool',
    instruction:
      'Let the disc cool to room temperature, about an hour. Warm air lifts the pan and makes it seem lighter.',
  }),
  {
    key: 'weigh-before',
    title: 'Weigh after cure (W1)',
    instruction: 'Weigh the disc on its felt, cold and dry, with nothing on it that was not cast with it.',
    cautions: [],
    events: [],
    readings: [mass('680')],
    equipment: ['balance'],
    conditions: [],
  },
  {
    key: 'soak',
    title: `Soak in the bath (${words})`,
    instruction: 'Lay the disc flat under water. Put discs in one by one, as far apart as the runs will be.',
    cautions: [],
    events: ['start'],
    eventLabels: { start: 'In the bath' },
    readings: [],
    equipment: ['bath'],
    conditions: [held('Bath', 'soak-temperature')],
    needs: ['weigh-before'],
  },
  {
    key: 'abrade',
    title: 'Abrade',
    instruction:
      'Clamp the disc, cover it with water, turn the hose to a fresh face, let the head float free and run for the time of the machine. Rinse the loose grains off afterwards.',
    cautions: [cautions.abrasion, cautions.alone],
    events: ['start'],
    eventLabels: { start: 'Run started' },
    readings: [
      {
        key: 'hose',
        label: 'Hose',
        kind: 'choice',
        choices: [
          { key: 'turned', label: 'Turned to a fresh face' },
          { key: 'new', label: 'New' },
        ],
        optional: true,
      },
      {
        key: 'water-temperature',
        label: 'Water in the pan',
        kind: 'number',
        unit: '°C',
        resolution: '0.1',
        plausible: { from: '24', to: '26', source: practiceSource },
        optional: true,
        instrument: 'thermometer',
      },
      { key: 'observation', label: 'What was seen', kind: 'text', optional: true },
    ],
    equipment: ['wet-track-machine'],
    conditions: [held('Water in the pan', 'water-temperature')],
    runSecondsParameter: 'run-seconds',
    needs: ['weigh-before'],
  },
  ovenStep(
    {
      key: 'dry-back',
      title: 'Dry back',
      instruction: 'Dry the abraded disc to constant mass. A disc still damp makes the loss look smaller.',
    },
    'dry-back-temperature',
  ),
  coolStep({ key: 'cool-after', instruction: 'Let the disc cool to room temperature, and weigh it soon after.' }),
  {
    key: 'weigh-after',
    title: 'Weigh after dry back (W2)',
    instruction: 'Weigh the same disc on its felt, cold and dry. Read the code on the felt before typing it.',
    cautions: [],
    events: [],
    readings: [mass('600')],
    equipment: ['balance'],
    conditions: [],
  },
]

/** The windows between those steps. @param words the soak in words */
export const wetTrackWindows = (words: string): readonly WindowDeclaration[] => [
  {
    key: 'cast-to-oven',
    label: 'Casting to oven',
    step: 'cure',
    act: 'start',
    after: { step: 'cast', act: 'start' },
    latestParameter: 'cast-to-oven-latest',
    late: 'miss',
  },
  {
    key: 'cure',
    label: 'Cure',
    step: 'cure',
    act: 'end',
    after: { step: 'cure', act: 'start' },
    earliestParameter: 'cure-earliest',
    latestParameter: 'cure-latest',
    late: 'miss',
  },
  {
    key: 'soak',
    label: `Into the bath to start of run (${words})`,
    step: 'abrade',
    act: 'start',
    after: { step: 'soak', act: 'start' },
    earliestParameter: 'soak-earliest',
    latestParameter: 'soak-latest',
    late: 'miss',
  },
  {
    key: 'dry-back',
    label: 'Dry back',
    step: 'dry-back',
    act: 'end',
    after: { step: 'dry-back', act: 'start' },
    earliestParameter: 'dry-back-earliest',
    latestParameter: 'dry-back-latest',
    late: 'finding',
  },
  {
    key: 'weigh-after',
    label: 'Out of the oven to last weighing',
    step: 'weigh-after',
    act: 'reading',
    after: { step: 'dry-back', act: 'end' },
    latestParameter: 'weigh-after-latest',
    late: 'miss',
  },
]
