import { createCalculation } from '../procedure/calculation-builder.ts'
import type {
  BuiltInEdition,
  ComputedChoice,
  ComputedResult,
  EvaluationSetup,
  MethodDeclaration,
  ObservedReading,
  StepDeclaration,
  WeighedPair,
} from '../procedure/declaration.ts'
import { evaluateFormulas, parameterOf, readingAt, resultOf } from '../procedure/evaluation.ts'
import { decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { cautions } from './cautions.ts'
import { practiceSource, practised, published, replicatesPractised } from './edition-parameter.ts'
import { offTarget } from './off-target.ts'
import { weigh } from './weighed-difference.ts'

const report = 'Caltrans contract 65A0151, Phase II report (2010)'
const read = (page: string, value: string, unit: string, label: string) => published(report, page, value, unit, label)

/** The cures that the report names: pages 117 to 123. */
type Cure = {
  readonly key: string
  readonly words: string
  readonly property: string
  readonly minutes: string
  readonly latest: string
}

const editionFor = ({ minutes, latest }: Cure): BuiltInEdition => ({
  key: 'caltrans-65a0151',
  designation: 'Cohesion abrasion, Caltrans contract 65A0151',
  year: '2010',
  effectiveFrom: '2010-12-01',
  parameters: {
    ...replicatesPractised('3'), // common practice, no source
    // The batch sheet printed on page 148 has 1350 g; the text of the test has 1300 g.
    'dry-aggregate': read('page 117', '1300', 'g', 'Dry aggregate of one batch'),
    'cure-time': read('pages 117 to 123', minutes, 'min', 'Cured for'),
    'cure-latest': practised(latest, 'min', 'Cured for, at most'),
    'cure-temperature': read('pages 117 to 123', '25', '°C', 'Temperature while curing; 15 and 35 °C are others'),
    'cure-temperature-tolerance': practised('2', '°C', 'Temperature while curing, tolerance'),
    'cure-humidity': read('pages 117 to 123', '50', '%', 'Relative humidity while curing; 90 % is another'),
    'cure-humidity-tolerance': practised('5', '%', 'Relative humidity while curing, tolerance'),
    'soak-earliest': read('pages 117 to 123', '1', 'min', 'Soak: abrasion begins, at the earliest'),
    'soak-latest': practised('2', 'min', 'Soak: abrasion begins, beyond which it is a finding'),
    'run-seconds': read('page 117', '60', 's', 'Run time'),
    'run-seconds-tolerance': practised('2', 's', 'Run time, tolerance'),
    'high-below': read('pages 122 and 123', '100', 'g', 'High cohesion: loss below'),
    'average-to': read('pages 122 and 123', '300', 'g', 'Average cohesion: loss up to'),
    'not-resisting-from': read('pages 122 and 123', '400', 'g', 'Will not resist early traffic: loss near'),
  },
})

const stepsFor = ({ words }: Cure): readonly StepDeclaration[] => [
  {
    key: 'cast',
    title: 'Cast the specimen',
    instruction: 'Mix, cast on the disc of felt and strike off. The time of curing counts from here.',
    cautions: [cautions.emulsion, cautions.filler],
    events: ['start'],
    eventLabels: { start: 'Cast' },
    readings: [],
    equipment: [],
    conditions: [],
  },
  {
    key: 'cure',
    title: 'Cure',
    instruction: `Leave the specimen for ${words} at the temperature and humidity of the edition. The report also cures at 15 and 35 °C and at 90 % relative humidity: an edition of its own for each.`,
    cautions: [],
    events: [],
    readings: [
      {
        key: 'temperature',
        label: 'Temperature while curing',
        kind: 'number',
        unit: '°C',
        resolution: '0.1',
        plausible: { from: '14', to: '36', source: practiceSource },
        instrument: 'thermometer',
      },
      {
        key: 'humidity',
        label: 'Relative humidity while curing',
        kind: 'number',
        unit: '%',
        resolution: '1',
        plausible: { from: '45', to: '95', source: practiceSource },
      },
    ],
    equipment: ['thermometer'],
    conditions: [
      { label: 'Cured for', targetParameter: 'cure-time' },
      {
        label: 'Temperature',
        targetParameter: 'cure-temperature',
        toleranceParameter: 'cure-temperature-tolerance',
      },
      { label: 'Relative humidity', targetParameter: 'cure-humidity', toleranceParameter: 'cure-humidity-tolerance' },
    ],
  },
  {
    key: 'weigh-before',
    title: 'Weigh after curing',
    instruction: 'Weigh the specimen on its felt, as it is after curing, just before it goes under water.',
    cautions: [],
    events: [],
    readings: [mass('500', '2200')],
    equipment: ['balance'],
    conditions: [],
  },
  {
    key: 'soak',
    title: 'Soak',
    instruction: 'Cover the specimen with water.',
    cautions: [],
    events: ['start'],
    eventLabels: { start: 'Under water' },
    readings: [],
    equipment: [],
    conditions: [],
    needs: ['weigh-before'],
  },
  {
    key: 'abrade',
    title: 'Abrade',
    instruction:
      'Put on the wheeled head, let it float free and run the small bench mixer for the time of the method. Rinse off what came loose.',
    cautions: [cautions.abrasion, cautions.alone],
    events: ['start'],
    eventLabels: { start: 'Run started' },
    readings: [{ key: 'observation', label: 'What was seen', kind: 'text', optional: true }],
    equipment: ['wet-track-machine'],
    conditions: [],
    runSecondsParameter: 'run-seconds',
    needs: ['weigh-before'],
  },
  {
    key: 'weigh-after',
    title: 'Weigh after abrasion',
    instruction:
      'Weigh the same specimen on its felt, in the same state as before: the loss is of grams, not per area.',
    cautions: [],
    events: [],
    readings: [mass('200', '2200')],
    equipment: ['balance'],
    conditions: [],
  },
]

function mass(from: string, to: string) {
  return {
    key: 'mass',
    label: 'Mass',
    kind: 'number',
    unit: 'g',
    resolution: '0.1',
    instrument: 'balance',
    plausible: { from, to, source: practiceSource },
  } as const
}

const pair: WeighedPair = {
  before: { step: 'weigh-before', key: 'mass' },
  after: { step: 'weigh-after', key: 'mass' },
  sense: 'loss',
  unit: 'g',
  plausible: { from: '5', to: '450', source: practiceSource },
}

const weighed = {
  pair,
  difference: { key: 'loss', label: 'Cohesion abrasion loss', displayDecimals: 1 },
  source: report,
  impossible: (amount: string) => `Gain of ${amount}: not this specimen, or weighed wetter than before? Weigh again.`,
}

const classes = [
  { key: 'high', label: 'High cohesion' },
  { key: 'average', label: 'Average cohesion' },
  { key: 'between', label: 'More than average loss; the report names no class' },
  { key: 'not-resisting', label: 'Will not resist early traffic' },
] as const

/**
 * A loss after another cure is another property: it is never averaged with those of this one.
 * @throws MethodInputError `outside-conditions`
 */
function assertCured(readings: readonly ObservedReading[], { parameters }: EvaluationSetup): void {
  const read = (key: string) => readingAt(readings, 'cure', key)
  const off = [
    ...offTarget('The specimen was cured at', read('temperature'), parameters, 'cure-temperature'),
    ...offTarget('The specimen was cured in', read('humidity'), parameters, 'cure-humidity'),
  ]
  if (off.length > 0)
    throw new MethodInputError(
      'outside-conditions',
      `${off.join(' ')} For another cure use an edition that asks for it.`,
    )
}

function lossOf(readings: readonly ObservedReading[], setup: EvaluationSetup) {
  assertCured(readings, setup)
  const work = createCalculation()
  weigh(work, weighed, readings)
  return work.calculation()
}

function loss(readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedResult {
  return resultOf(lossOf(readings, setup), weighed.difference)
}

function cohesionClass(readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedChoice {
  const calculation = lossOf(readings, setup)
  const grams = decimal(calculation.lines.at(-1)!.value)
  const bound = (key: string) => parameterOf(setup, key).value
  const choice = grams.lt(bound('high-below'))
    ? 'high'
    : grams.lte(bound('average-to'))
      ? 'average'
      : grams.lt(bound('not-resisting-from'))
        ? 'between'
        : 'not-resisting'
  return { key: 'cohesion-class', label: 'Cohesion', choice, calculation }
}

/**
 * Cohesion abrasion as a pooled-fund study proposed it: a fresh specimen, cured for minutes to hours, soaked one minute and
 * abraded for one minute by a wheeled head. The loss stays in grams; there is no factor per area.
 */
function cohesionAbrasionMethod(cure: Cure): MethodDeclaration {
  const steps = stepsFor(cure)
  return {
    key: cure.key,
    name: `Cohesion abrasion after ${cure.words}, wheeled head`,
    shortName: `Cohesion abrasion, ${cure.words}`,
    answers: [{ property: cure.property, result: 'loss' }],
    place: 'panel',
    madeFrom: 'batch',
    portionParameter: 'dry-aggregate',
    form: 'disc',
    computation: 1,
    steps,
    windows: [
      {
        key: 'cure',
        label: 'Casting to the weighing after the cure',
        step: 'weigh-before',
        act: 'reading',
        after: { step: 'cast', act: 'start' },
        earliestParameter: 'cure-time',
        latestParameter: 'cure-latest',
        late: 'miss',
      },
      {
        key: 'soak',
        label: 'Under water to start of run',
        step: 'abrade',
        act: 'start',
        after: { step: 'soak', act: 'start' },
        earliestParameter: 'soak-earliest',
        latestParameter: 'soak-latest',
        late: 'finding',
      },
    ],
    editions: [editionFor(cure)],
    resultOfRecord: 'loss',
    results: [weighed.difference, { key: 'cohesion-class', label: 'Cohesion', displayDecimals: 0, choices: classes }],
    pair,
    evaluate: (readings, setup) =>
      evaluateFormulas(steps, readings, [
        { keys: ['loss'], compute: () => [loss(readings, setup)] },
        { keys: ['cohesion-class'], compute: () => [cohesionClass(readings, setup)] },
      ]),
  }
}

/** After a cure of 30 min. */
export const cohesionAbrasion30min = cohesionAbrasionMethod({
  key: 'cohesion-abrasion-30-min',
  words: '30 min',
  property: 'cohesion-abrasion-loss-30-min',
  minutes: '30',
  latest: '32',
})
/** After a cure of 1 h. */
export const cohesionAbrasion1h = cohesionAbrasionMethod({
  key: 'cohesion-abrasion-1h',
  words: '1 h',
  property: 'cohesion-abrasion-loss-1-hour',
  minutes: '60',
  latest: '64',
})
/** After a cure of 3 h. */
export const cohesionAbrasion3h = cohesionAbrasionMethod({
  key: 'cohesion-abrasion-3h',
  words: '3 h',
  property: 'cohesion-abrasion-loss-3-hours',
  minutes: '180',
  latest: '190',
})
