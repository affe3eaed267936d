import type {
  BuiltInEdition,
  ConditionDeclaration,
  EditionParameters,
  MethodDeclaration,
  ReadingDeclaration,
  StepDeclaration,
  WeighedPair,
  WindowDeclaration,
} from '../procedure/declaration.ts'
import { evaluateFormulas } from '../procedure/evaluation.ts'
import { cautions } from './cautions.ts'
import { practised, practiceSource, remembered } from './edition-parameter.ts'
import type { AreaFactorClass } from './machine-factor.ts'
import { weighedDifferenceFormulas, weighedDifferenceResults, type WeighedDifference } from './weighed-difference.ts'

const tb100 = (value: string, unit: string, label: string) => remembered('ISSA TB-100', value, unit, label)

/**
 * Machine classes by size and use. The factor of a result is the machine's own; this table is what a factor is checked
 * against. A machine of another kind has its area measured.
 */
export const areaFactorClasses: readonly AreaFactorClass[] = [
  machineClass('a', 'A: small bench planetary mixer, 5 quart'),
  machineClass('a-modified', 'A′: small bench planetary mixer with a modified head'),
  machineClass('b', 'B: reference class, planetary mixer, 10 quart'),
  machineClass('c', 'C: planetary mixer, 12 quart'),
]

function machineClass(key: string, name: string): AreaFactorClass {
  return {
    key,
    name,
    runSecondsParameter: `class-${key}-run`,
    factorParameters: { 'g/m²': `class-${key}-factor-g-m2`, 'g/ft²': `class-${key}-factor-g-ft2` },
  }
}

const classParameters: EditionParameters = {
  'class-a-run': tb100('315', 's', 'Run time, class A'),
  'class-a-factor-g-m2': tb100('37.5', 'g/m²', 'Factor for each gram lost, class A'),
  'class-a-factor-g-ft2': tb100('3.48', 'g/ft²', 'Factor for each gram lost, class A'),
  'class-a-modified-run': practised('315', 's', 'Run time, class A′'),
  'class-a-modified-factor-g-m2': practised('29.2', 'g/m²', 'Factor for each gram lost, class A′'),
  'class-a-modified-factor-g-ft2': practised('2.71', 'g/ft²', 'Factor for each gram lost, class A′'),
  'class-b-run': tb100('300', 's', 'Run time, class B (reference)'),
  'class-b-factor-g-m2': tb100('32.9', 'g/m²', 'Factor for each gram lost, class B (reference)'),
  'class-b-factor-g-ft2': tb100('3.06', 'g/ft²', 'Factor for each gram lost, class B (reference)'),
  'class-c-run': tb100('405', 's', 'Run time, class C'),
  'class-c-factor-g-m2': tb100('29.9', 'g/m²', 'Factor for each gram lost, class C'),
  'class-c-factor-g-ft2': tb100('2.78', 'g/ft²', 'Factor for each gram lost, class C'),
}

const commonParameters: EditionParameters = {
  'disc-diameter': tb100('279', 'mm', 'Diameter of the disc'),
  'disc-thickness': tb100('6.35', 'mm', 'Thickness of the template'),
  'felt-diameter': tb100('286', 'mm', 'Diameter of the felt'),
  'strike-off-latest': practised('15', 's', 'Striking off, at most'),
  'cast-to-oven-latest': practised('3', 'h', 'Casting to oven, at most'),
  'cure-temperature': tb100('60', '°C', 'Oven while curing'),
  'cure-temperature-tolerance': tb100('3', '°C', 'Oven while curing, tolerance'),
  'cure-earliest': tb100('15', 'h', 'Cure, at least'),
  'cure-latest': practised('24', 'h', 'Cure, at most'),
  'constant-mass': practised('0.2', 'g', 'Constant mass: two weighings of a check disc differ by no more than'),
  'constant-mass-interval': practised('1', 'h', 'Constant mass: time between the two weighings'),
  'balance-step': tb100('0.1', 'g', 'Balance, smallest step'),
  'soak-temperature': tb100('25', '°C', 'Bath while soaking'),
  'soak-temperature-tolerance': tb100('1', '°C', 'Bath while soaking, tolerance'),
  'water-temperature': tb100('25', '°C', 'Water in the pan'),
  'water-temperature-tolerance': practised('1', '°C', 'Water in the pan, tolerance'),
  'water-depth': tb100('6', 'mm', 'Water over the surface, at least'),
  'run-seconds': tb100('300', 's', 'Run time where the machine names no class of its own'),
  'run-seconds-tolerance': tb100('2', 's', 'Run time, tolerance'),
  'dry-back-temperature': practised('60', '°C', 'Oven while drying back'),
  'dry-back-temperature-tolerance': practised('3', '°C', 'Oven while drying back, tolerance'),
  'dry-back-earliest': practised('15', 'h', 'Dry back, at least'),
  'dry-back-latest': practised('24', 'h', 'Dry back, beyond which it is a finding'),
  'weigh-after-latest': practised('2', 'h', 'Leaving the oven to last weighing, at most'),
  'factor-difference': practised('2', '%', 'Factor against measured area or class, asked about beyond'),
  ...classParameters,
}

const soaks = {
  '1-hour': {
    words: '1-hour soak',
    parameters: {
      'soak-earliest': tb100('60', 'min', '1-hour soak: abrasion begins, at the earliest'),
      'soak-latest': tb100('75', 'min', '1-hour soak: abrasion begins, at the latest'),
    },
    plausible: { from: '0.5', to: '45', source: practiceSource },
  },
  '6-day': {
    words: '6-day soak',
    parameters: {
      'soak-earliest': tb100('144', 'h', '6-day soak: abrasion begins, at the earliest'),
      'soak-latest': practised('146', 'h', '6-day soak: abrasion begins, at the latest'),
    },
    plausible: { from: '1', to: '60', source: practiceSource },
  },
} as const
type Soak = keyof typeof soaks

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

const stepsFor = (words: string): readonly StepDeclaration[] => [
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
  {
    key: 'cure',
    title: 'Cure in the oven',
    instruction:
      'Dry to constant mass. Check it on the richest discs and those put in last, weighed warm against warm.',
    cautions: [cautions.oven, cautions.microwave],
    events: ['start', 'end'],
    eventLabels: { start: 'In the oven', end: 'Out of the oven' },
    readings: [],
    equipment: ['oven'],
    conditions: [held('Oven', 'cure-temperature')],
  },
  {
    key: 'cool',
    title: 'Cool down',
    instruction:
      'Let the disc cool to room temperature, about an hour. Warm air lifts the pan and makes it seem lighter.',
    cautions: [],
    events: ['end'],
    eventLabels: { end: 'Cooled' },
    readings: [],
    equipment: [],
    conditions: [],
  },
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
  {
    key: 'dry-back',
    title: 'Dry back',
    instruction: 'Dry the abraded disc to constant mass. A disc still damp makes the loss look smaller.',
    cautions: [cautions.oven, cautions.microwave],
    events: ['start', 'end'],
    eventLabels: { start: 'In the oven', end: 'Out of the oven' },
    readings: [],
    equipment: ['oven'],
    conditions: [held('Oven', 'dry-back-temperature')],
  },
  {
    key: 'cool-after',
    title: 'Cool down',
    instruction: 'Let the disc cool to room temperature, and weigh it soon after.',
    cautions: [],
    events: ['end'],
    eventLabels: { end: 'Cooled' },
    readings: [],
    equipment: [],
    conditions: [],
  },
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

const windowsFor = (words: string): readonly WindowDeclaration[] => [
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

/** Loss = W1 − W2; loss per area = loss × factor of the machine that was used, one for each unit that it holds. */
function abrasion(key: string, soak: Soak, name: string, shortName: string): MethodDeclaration {
  const { words, parameters, plausible } = soaks[soak]
  const steps = stepsFor(words)
  const pair: WeighedPair = {
    before: { step: 'weigh-before', key: 'mass' },
    after: { step: 'weigh-after', key: 'mass' },
    sense: 'loss',
    unit: 'g',
    plausible,
    seriesSpread: { percent: '5', source: practiceSource },
  }
  const weighed: WeighedDifference = {
    pair,
    difference: { key: 'loss', label: `Loss, ${words}`, displayDecimals: 1 },
    perArea: { key: 'loss-per-area', label: `Loss per area, ${words}` },
    source: 'ISSA TB-100, from memory, unverified',
    impossible: (amount) => `Gain of ${amount}: still wet, or not this disc? Dry on and weigh again.`,
    factorWords: 'factor of the wet track machine',
  }
  const edition: BuiltInEdition = {
    key: 'issa-tb-100',
    designation: 'ISSA TB-100',
    year: 'year not checked',
    effectiveFrom: '2010-01-01',
    parameters: { ...commonParameters, ...parameters },
  }
  return {
    key,
    name,
    shortName,
    answers: { property: 'abrasion-loss', soak },
    form: 'disc',
    computation: 1,
    steps,
    windows: windowsFor(words),
    editions: [edition],
    machine: { kind: 'wet-track-machine', factorKey: 'area' },
    resultOfRecord: 'loss-per-area',
    results: weighedDifferenceResults(weighed),
    pair,
    evaluate: (readings, setup) =>
      evaluateFormulas(steps, readings, weighedDifferenceFormulas(weighed, readings, setup)),
  }
}

export const wetTrackAbrasion1h = abrasion(
  'wet-track-abrasion-1h',
  '1-hour',
  'Wet track abrasion, 1-hour soak',
  'Abrasion, 1 h',
)
export const wetTrackAbrasion6d = abrasion(
  'wet-track-abrasion-6d',
  '6-day',
  'Wet track abrasion, 6-day soak',
  'Abrasion, 6 d',
)
