import { createCalculation } from '../procedure/calculation-builder.ts'
import type {
  BuiltInEdition,
  ComputedResult,
  ConditionDeclaration,
  EvaluationSetup,
  MethodDeclaration,
  ObservedReading,
  ReadingDeclaration,
  ResultDeclaration,
  StepDeclaration,
} from '../procedure/declaration.ts'
import { evaluateFormulas, readingAt, resultOf, type Formula } from '../procedure/evaluation.ts'
import { decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { cautions } from './cautions.ts'
import { practiceSource, practised, published, remembered, replicatesPractised } from './edition-parameter.ts'
import { offTarget } from './off-target.ts'
import { mixBreaks, mixConsistencies } from './trial-mix-words.ts'

const tb113 = (value: string, unit: string, label: string) => remembered('ISSA TB-113', value, unit, label)

const common = {
  aggregate: tb113('100', 'g', 'Dry aggregate in one cup'),
}

/** A cup stirred at the temperature of the limit, or at whatever temperature is to be tried. */
type Cup = {
  readonly conditions: readonly ConditionDeclaration[]
  readonly temperatures: NonNullable<ReadingDeclaration['plausible']>
  /** Whether the mix time is refused at another temperature: where a limit names one. */
  readonly held: boolean
}

const stepsFor = ({ conditions, temperatures }: Cup): readonly StepDeclaration[] => [
  {
    key: 'stir',
    title: 'Stir by hand',
    instruction:
      'Cup, aggregate, water and emulsion have one temperature. Stir aggregate and filler, then with water and additive until evenly wet. Start when the emulsion goes in, not when it is all in, and stir until the mix stiffens and breaks.',
    cautions: [cautions.emulsion, cautions.filler, cautions.additive],
    events: ['start'],
    eventLabels: { start: 'Emulsion goes in' },
    readings: [
      {
        key: 'temperature',
        label: 'Temperature of the mix',
        kind: 'number',
        unit: '°C',
        resolution: '0.1',
        instrument: 'thermometer',
        plausible: temperatures,
      },
      {
        key: 'humidity',
        label: 'Relative humidity',
        kind: 'number',
        unit: '%',
        resolution: '1',
        plausible: { from: '20', to: '95', source: practiceSource },
        optional: true,
      },
      {
        key: 'consistency',
        label: 'Consistency while stirred',
        kind: 'choice',
        choices: mixConsistencies,
      },
      {
        key: 'mix-time',
        label: 'Mix time',
        kind: 'number',
        unit: 's',
        resolution: '1',
        instrument: 'timer',
        since: { step: 'stir', act: 'start' },
        plausible: { from: '30', to: '900', source: practiceSource },
      },
      { key: 'break', label: 'How it broke', kind: 'choice', choices: mixBreaks },
    ],
    equipment: ['thermometer', 'timer'],
    conditions,
  },
  {
    key: 'look',
    title: 'Look at the coating',
    instruction: 'Judge how much of the stones is coated, and look at the water that comes out of the mix.',
    cautions: [],
    events: [],
    readings: [
      {
        key: 'coated',
        label: 'Stones coated',
        kind: 'number',
        unit: '%',
        resolution: '1',
        plausible: { from: '75', to: '100', source: practiceSource },
      },
      {
        key: 'water',
        label: 'Water of the mix',
        kind: 'choice',
        choices: [
          { key: 'clear', label: 'Clear' },
          { key: 'straw', label: 'Straw-coloured' },
          { key: 'brown', label: 'Brown' },
        ],
        optional: true,
      },
      { key: 'observation', label: 'What was seen', kind: 'text', optional: true },
    ],
    equipment: [],
    conditions: [],
  },
  {
    key: 'blot',
    title: 'Wait for clear water',
    instruction:
      'Press blotting paper on the mix now and then: note the minutes since the emulsion went in when it takes up clear water only.',
    cautions: [],
    events: [],
    readings: [
      {
        key: 'clear-water',
        label: 'Clear water after',
        kind: 'number',
        unit: 'min',
        resolution: '1',
        instrument: 'timer',
        since: { step: 'stir', act: 'start' },
        plausible: { from: '1', to: '180', source: practiceSource },
        optional: true,
      },
    ],
    equipment: ['timer'],
    conditions: [],
  },
]

const results = {
  'mix-time': { label: 'Mix time', unit: 's', displayDecimals: 0, step: 'stir' },
  temperature: { label: 'Temperature of the mix', unit: '°C', displayDecimals: 1, step: 'stir' },
  coated: { label: 'Stones coated', unit: '%', displayDecimals: 0, step: 'look' },
  'clear-water': { label: 'Clear water after', unit: 'min', displayDecimals: 0, step: 'blot' },
} as const satisfies Record<string, Omit<ResultDeclaration, 'key'> & { step: string }>
type Key = keyof typeof results

/** A result that is one reading as it was read. */
function asRead(key: Key, reading: ObservedReading): ComputedResult {
  const { label, unit, displayDecimals } = results[key]
  const work = createCalculation()
  work.input({ symbol: 'R', name: label, unit, source: 'as read' }, reading.value, {
    kind: 'reading',
    id: reading.id,
    key: reading.key,
  })
  return resultOf(work.calculation(), { key, label, displayDecimals })
}

function checked(key: Key, reading: ObservedReading): ComputedResult {
  const { label, unit } = results[key]
  const value = decimal(reading.value)
  const detail = { [key]: `${reading.value} ${unit}` }
  if ((key === 'mix-time' || key === 'clear-water') && value.lte(0))
    throw new MethodInputError('not-positive', `${label} must be more than 0 ${unit}: read it again.`, detail)
  if (key === 'coated' && (value.lt(0) || value.gt(100)))
    throw new MethodInputError('inconsistent', 'The coated part of the stones lies between 0 and 100 %.', detail)
  return asRead(key, reading)
}

function formulas(readings: readonly ObservedReading[], setup: EvaluationSetup, held: boolean): readonly Formula[] {
  return (Object.keys(results) as Key[]).map((key) => ({
    keys: [key],
    compute: () => {
      const { step } = results[key]
      const taken = readings.some((reading) => reading.step === step && reading.key === key)
      if (key === 'clear-water' && !taken) return []
      const result = checked(key, readingAt(readings, step, key))
      if (key === 'mix-time') assertEnded(readings, setup, held)
      return [result]
    },
  }))
}

/**
 * The time of a mix that had not broken says only that its mix time is longer, and one stirred at another temperature than
 * that of the limit says nothing about the limit: neither is a number to be averaged or judged. The readings stay.
 */
function assertEnded(readings: readonly ObservedReading[], { parameters }: EvaluationSetup, held: boolean): void {
  const seconds = `${readingAt(readings, 'stir', 'mix-time').value} s`
  if (readingAt(readings, 'stir', 'break').value === 'not-broken')
    throw new MethodInputError(
      'not-bracketed',
      `Longer than ${seconds}: the mix had not broken when stirring stopped. Stir another cup until it breaks.`,
      { 'mix-time': seconds },
    )
  if (!held) return
  const temperature = readingAt(readings, 'stir', 'temperature')
  const [off] = offTarget('The mix was stirred at', temperature, parameters, 'temperature')
  if (off)
    throw new MethodInputError(
      'outside-conditions',
      `${off} Its time stays on record: for another temperature use the hand trial mix at a temperature of the job.`,
      { temperature: `${temperature.value} °C` },
    )
}

type Names = Pick<MethodDeclaration, 'key' | 'name' | 'shortName' | 'answers' | 'noReplicates'>

function handTrialMix(names: Names, cup: Cup, editions: readonly BuiltInEdition[]): MethodDeclaration {
  const steps = stepsFor(cup)
  return {
    ...names,
    place: 'panel',
    madeFrom: 'batch',
    portionParameter: 'aggregate',
    form: 'cup',
    computation: 1,
    steps,
    windows: [],
    editions,
    resultOfRecord: 'mix-time',
    chart: {
      key: 'mix-time',
      title: 'Mix time by temperature',
      x: { label: 'Temperature of the mix', unit: '°C' },
      y: { label: 'Mix time', unit: 's' },
      lines: [{ points: [{ x: { reading: { step: 'stir', key: 'temperature' } }, y: { result: 'mix-time' } }] }],
    },
    results: (Object.keys(results) as Key[]).map((key) => {
      const { label, unit, displayDecimals } = results[key]
      return { key, label, unit, displayDecimals }
    }),
    evaluate: (readings, setup) => evaluateFormulas(steps, readings, formulas(readings, setup, cup.held)),
  }
}

const edition = (key: string, parameters: BuiltInEdition['parameters']): BuiltInEdition => ({
  key,
  designation: 'ISSA TB-113',
  year: 'year not checked',
  effectiveFrom: '2010-01-01',
  // common practice, no source
  parameters: { ...replicatesPractised('1'), ...parameters },
})

/** A cup of the mix stirred by hand at the temperature that the limit names (ISSA TB-113). */
export const trialMix = handTrialMix(
  {
    key: 'trial-mix',
    name: 'Hand trial mix, at the temperature of the limit',
    shortName: 'Trial mix',
    answers: [
      { property: 'mix-time', result: 'mix-time' },
      { property: 'coating', result: 'coated' },
    ],
  },
  {
    held: true,
    temperatures: { from: '23', to: '27', source: practiceSource },
    conditions: [{ label: 'Mix', targetParameter: 'temperature', toleranceParameter: 'temperature-tolerance' }],
  },
  [
    edition('issa-tb-113', {
      ...common,
      temperature: published(
        'NCHRP Synthesis 411 (2010)',
        undefined,
        '25',
        '°C',
        'Temperature at which the limit of the mix time stands',
      ),
      'temperature-tolerance': practised('1', '°C', 'Temperature of the mix, tolerance'),
    }),
  ],
)

/**
 * The same at another temperature, such as the highest that is expected on the job: a cup for each. It answers a property
 * of its own, so that no hot cup is averaged into the limit at 25 °C.
 */
export const trialMixAtTemperature = handTrialMix(
  {
    key: 'trial-mix-at-temperature',
    name: 'Hand trial mix, at a temperature of the job',
    shortName: 'Trial mix, job',
    answers: [{ property: 'mix-time-at-job-temperature', result: 'mix-time' }],
    noReplicates: 'each cup is stirred at a temperature of its own',
  },
  { held: false, temperatures: { from: '5', to: '60', source: practiceSource }, conditions: [] },
  [edition('issa-tb-113', common)],
)
