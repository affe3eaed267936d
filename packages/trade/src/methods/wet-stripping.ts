import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import type {
  BuiltInEdition,
  ComputedChoice,
  ComputedResult,
  EvaluationSetup,
  MethodDeclaration,
  ObservedReading,
  ReadingDeclaration,
  StepDeclaration,
  WindowDeclaration,
} from '../procedure/declaration.ts'
import { evaluateFormulas, parameterOf, readingAt, resultOf } from '../procedure/evaluation.ts'
import { decimal, plainDigits } from '../quantity/decimal.ts'
import { cautions } from './cautions.ts'
import { practiceSource, practised, remembered, replicatesPractised } from './edition-parameter.ts'
import { optionalReading, outsideUsual, takeParameter, takeShare } from './working-inputs.ts'
import { ovenStep } from './oven-steps.ts'

const tb114 = (value: string, unit: string, label: string) => remembered('ISSA TB-114', value, unit, label)
const unsure = (value: string, unit: string, label: string) =>
  remembered('ISSA TB-114, unsure of the value', value, unit, label)
const source = 'ISSA TB-114, from memory, unverified'

const edition: BuiltInEdition = {
  key: 'issa-tb-114',
  designation: 'ISSA TB-114',
  year: 'year not checked',
  effectiveFrom: '2010-01-01',
  parameters: {
    ...replicatesPractised('1'), // common practice, no source
    'batch-aggregate': practised('100', 'g', 'Dry aggregate of one batch'),
    'cure-temperature': tb114('60', '°C', 'Oven while curing'),
    'cure-temperature-tolerance': practised('3', '°C', 'Oven while curing, tolerance'),
    'cure-earliest': tb114('24', 'h', 'Cure, at least'),
    sample: tb114('10', 'g', 'Cured mix that is boiled, about'),
    'sample-least': practised('9', 'g', 'Cured mix that is boiled, at least'),
    'sample-most': practised('11', 'g', 'Cured mix that is boiled, at most'),
    water: tb114('400', 'mL', 'Boiling water'),
    boil: tb114('3', 'min', 'Boiling'),
    'boil-seconds': tb114('180', 's', 'Boiling, for the clock of the step'),
    'boil-earliest': practised('165', 's', 'Boiling, at least'),
    'boil-latest': practised('195', 's', 'Boiling, at most'),
    'observers-apart': practised('10', '%', 'Two people who look at one sample lie apart by no more than'),
    'coated-usual-least': practised('60', '%', 'Surface still coated, usually at least'),
    satisfactory: unsure('90', '%', 'Satisfactory from, surface still coated'),
    marginal: unsure('75', '%', 'Marginal from, surface still coated'),
  },
}

const coated = (key: string, label: string): ReadingDeclaration => ({
  key,
  label,
  kind: 'number',
  unit: '%',
  resolution: '5',
  plausible: { from: '60', to: '100', source: practiceSource },
  ...(key === 'coated' ? {} : { optional: true }),
})

const steps: readonly StepDeclaration[] = [
  {
    key: 'spread',
    title: 'Spread the mix',
    instruction: 'Spread the mix out thin on a lined pan and mark the code on the pan.',
    cautions: [cautions.emulsion, cautions.filler],
    events: ['start'],
    eventLabels: { start: 'Spread' },
    readings: [],
    equipment: [],
    conditions: [],
  },
  ovenStep(
    {
      key: 'cure',
      title: 'Cure in the oven',
      instruction: 'Cure the mix before it meets hot water: what is not cured strips more than it should.',
    },
    'cure-temperature',
  ),
  {
    key: 'weigh-sample',
    title: 'Weigh out the sample',
    instruction: 'Break the cold mix up by hand and weigh out a sample of it, coarse and fine as they come.',
    cautions: [cautions.dust],
    events: [],
    readings: [
      {
        key: 'mass',
        label: 'Sample',
        kind: 'number',
        unit: 'g',
        resolution: '0.1',
        instrument: 'balance',
        plausible: { from: '9', to: '11', source: practiceSource },
      },
    ],
    equipment: ['balance'],
    conditions: [{ label: 'Sample, about', targetParameter: 'sample' }],
  },
  {
    key: 'boil',
    title: 'Boil',
    instruction: 'Bring the water to the boil, lower the sample in and keep it boiling.',
    cautions: [cautions.boiling],
    events: ['start', 'end'],
    eventLabels: { start: 'Sample in boiling water', end: 'Off the heat' },
    readings: [],
    equipment: [],
    conditions: [
      { label: 'Water', targetParameter: 'water' },
      { label: 'Boiling', targetParameter: 'boil' },
    ],
    runSecondsParameter: 'boil-seconds',
    needs: ['weigh-sample'],
  },
  {
    key: 'look',
    title: 'Look at the dried sample',
    instruction:
      'When it boils no more, float off what binder lies on the water, drain, and dry the sample on white paper. Judge how much of the whole surface is still coated, as a share of it. A second person may judge too, without being told the first number.',
    cautions: [cautions.boiling, cautions.floatingBinder],
    events: [],
    readings: [
      coated('coated', 'Surface still coated'),
      coated('coated-second', 'Surface still coated, second person'),
      { key: 'observation', label: 'What was seen', kind: 'text', optional: true },
    ],
    equipment: [],
    conditions: [],
    needs: ['weigh-sample'],
  },
]

const windows: readonly WindowDeclaration[] = [
  {
    key: 'cure',
    label: 'Cure',
    step: 'cure',
    act: 'end',
    after: { step: 'cure', act: 'start' },
    earliestParameter: 'cure-earliest',
    late: 'finding',
  },
  {
    key: 'boil',
    label: 'Boiling',
    step: 'boil',
    act: 'end',
    after: { step: 'boil', act: 'start' },
    earliestParameter: 'boil-earliest',
    latestParameter: 'boil-latest',
    late: 'finding',
  },
]

const result = { key: 'coated', label: 'Wet stripping, surface still coated', displayDecimals: 0 }
const grade = { key: 'grade', label: 'Grade of wet stripping' }
const classes = [
  { key: 'satisfactory', label: 'Satisfactory' },
  { key: 'marginal', label: 'Marginal' },
  { key: 'unsatisfactory', label: 'Unsatisfactory' },
]

/** What one person saw, or the mean of what two saw, % of the surface; the last line of the working. */
function seen(work: CalculationBuilder, readings: readonly ObservedReading[]) {
  const first = readingAt(readings, 'look', 'coated')
  const second = optionalReading(readings, 'look', 'coated-second')
  const text = (symbol: string, name: string) => ({ symbol, name, unit: '%', source: 'as seen' }) as const
  if (!second) return takeShare(work, text('C', result.label), first)
  takeShare(work, text('c1', `${result.label}, first person`), first)
  takeShare(work, text('c2', `${result.label}, second person`), second)
  return work.mean({ symbol: 'C', name: result.label, unit: '%', source: practiceSource }, 'c1', 'c2')
}

function findingsOf(readings: readonly ObservedReading[], setup: EvaluationSetup): readonly string[] {
  const mass = decimal(readingAt(readings, 'weigh-sample', 'mass').value)
  const first = readingAt(readings, 'look', 'coated')
  const second = optionalReading(readings, 'look', 'coated-second')
  const apart = decimal(first.value)
    .minus(second?.value ?? first.value)
    .abs()
  const most = parameterOf(setup, 'observers-apart')
  return [
    ...outsideUsual('A sample', mass, 'g', {
      least: parameterOf(setup, 'sample-least'),
      most: parameterOf(setup, 'sample-most'),
    }),
    ...(apart.gt(most.value)
      ? [`Two people saw ${plainDigits(apart)} % apart, more than ${most.value} % (${most.source}): look together.`]
      : []),
  ]
}

function stripping(readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedResult {
  const work = createCalculation()
  const value = seen(work, readings)
  const least = parameterOf(setup, 'coated-usual-least')
  const findings = [...findingsOf(readings, setup), ...outsideUsual('A coated share', value, '%', { least })]
  return { ...resultOf(work.calculation(), result), findings }
}

function gradeOf(readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedChoice {
  const work = createCalculation()
  const value = seen(work, readings)
  const satisfactory = takeParameter(work, 'S', setup, 'satisfactory')
  const marginal = takeParameter(work, 'M', setup, 'marginal')
  const choice = value.gte(satisfactory) ? 'satisfactory' : value.gte(marginal) ? 'marginal' : 'unsatisfactory'
  return { ...grade, choice, calculation: work.calculation() }
}

/** Share of the surface of cured mix that is still coated after boiling, %, and its grade; by eye, ISSA TB-114. */
export const wetStripping: MethodDeclaration = {
  key: 'wet-stripping',
  name: 'Wet stripping',
  shortName: 'Stripping',
  answers: [{ property: 'wet-stripping', result: 'coated' }],
  place: 'panel',
  madeFrom: 'batch',
  portionParameter: 'batch-aggregate',
  form: 'loose',
  computation: 1,
  steps,
  windows,
  editions: [edition],
  resultOfRecord: 'coated',
  results: [
    {
      ...result,
      unit: '%',
      reporting: { words: 'In per cent of the surface still coated, as judged by eye', source },
    },
    { ...grade, displayDecimals: 0, choices: classes },
  ],
  evaluate: (readings, setup) =>
    evaluateFormulas(steps, readings, [
      { keys: [result.key], compute: () => [stripping(readings, setup)] },
      { keys: [grade.key], compute: () => [gradeOf(readings, setup)] },
    ]),
}
