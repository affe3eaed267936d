import type {
  BuiltInEdition,
  EditionParameters,
  MethodDeclaration,
  ReadingDeclaration,
  StepDeclaration,
} from '../procedure/declaration.ts'
import { evaluateFormulas } from '../procedure/evaluation.ts'
import { cautions } from './cautions.ts'
import { coneFormulas, coneResults, cones, type ConeText } from './cone-results.ts'
import { practiceSource, practised, published, remembered, replicatesPractised } from './edition-parameter.ts'

const grams = (key: string, label: string, resolution: string, to: string): ReadingDeclaration => ({
  key,
  label,
  kind: 'number',
  unit: 'g',
  resolution,
  instrument: 'balance',
  plausible: { from: '0', to, source: practiceSource },
})

/** What is weighed for one cone. */
const weighings: readonly ReadingDeclaration[] = [
  grams('aggregate', 'Aggregate, as it is (moist or dry)', '0.1', '500'),
  grams('water', 'Added water', '0.1', '120'),
  grams('filler', 'Mineral filler', '0.01', '40'),
  grams('additive', 'Set-control additive', '0.01', '20'),
  grams('emulsion', 'Emulsion', '0.1', '120'),
]

const prepare = (aggregateLabel: string): StepDeclaration => ({
  key: 'prepare',
  title: 'Make ready',
  instruction:
    'For slurry seal: a micro-surfacing mix breaks while the cone is lifted and measures nothing. The batch of the sheet is the first cone, with the water of the mix that is judged: its weighings stand with the batch. For each further cone weigh another portion of the same aggregate beside it, with the same emulsion content and more or less water.',
  cautions: [cautions.dust],
  events: [],
  readings: [
    {
      key: 'moisture',
      label: 'Moisture of the aggregate, 0 when oven-dry',
      kind: 'number',
      unit: '%',
      resolution: '0.01',
      plausible: { from: '0', to: '10', source: practiceSource },
    },
    {
      key: 'temperature',
      label: 'Temperature of the materials',
      kind: 'number',
      unit: '°C',
      resolution: '0.1',
      instrument: 'thermometer',
      plausible: { from: '18', to: '28', source: practiceSource },
    },
  ],
  equipment: ['balance', 'thermometer'],
  conditions: [
    { label: aggregateLabel, targetParameter: 'aggregate', toleranceParameter: 'aggregate-tolerance' },
    { label: 'Materials', targetParameter: 'temperature', toleranceParameter: 'temperature-tolerance' },
  ],
})

function cone({ key, required }: (typeof cones)[number], number: number): StepDeclaration {
  const own = (reading: ReadingDeclaration): ReadingDeclaration => (required ? reading : { ...reading, optional: true })
  return {
    key,
    title: required ? 'First cone, at the water of the mix' : `Cone ${number}, with another water`,
    instruction:
      'Mix as for casting, fill the cone on the middle of the ringed plate, strike it off, lift it straight up and read how far the mix has flowed beyond the base at four places, square to each other.',
    cautions: [cautions.emulsion, cautions.filler],
    events: [],
    readings: [
      // The first cone is the batch, and was weighed with it.
      ...(required ? [] : weighings.map((reading): ReadingDeclaration => ({ ...reading, optional: true }))),
      own({
        key: 'flow',
        label: 'Flow beyond the base',
        kind: 'number',
        unit: 'mm',
        resolution: '1',
        repeats: 4,
        plausible: { from: '5', to: '60', source: practiceSource },
      }),
      own({
        key: 'segregation',
        label: 'Segregation',
        kind: 'choice',
        choices: [
          { key: 'none', label: 'None: the mix flows as one' },
          { key: 'fines-float', label: 'Fines or binder run ahead' },
          { key: 'stones-stay', label: 'Stones stay in a heap' },
        ],
      }),
    ],
    equipment: ['balance'],
    conditions: [],
    needs: ['prepare'],
  }
}

const stepsWith = (aggregateLabel: string): readonly StepDeclaration[] => [
  prepare(aggregateLabel),
  ...cones.map((one, index) => cone(one, index + 1)),
]

/** Flow wanted, the same in both forms: the middle of what is remembered. */
const flow: EditionParameters = {
  ...replicatesPractised('1'), // common practice, no source
  'flow-least': remembered('ISSA TB-106', '20', 'mm', 'Flow of a workable slurry, at least'),
  'flow-wanted': practised('25', 'mm', 'Flow wanted: the middle of 20 to 30 mm'),
  'flow-most': remembered('ISSA TB-106', '30', 'mm', 'Flow of a workable slurry, at most'),
  'segregation-filler-least': published(
    'UFC 3-250-03 (2001)',
    'appendix C',
    '0.5',
    '% of dry aggregate',
    'Cement or hydrated lime against segregation, at least',
  ),
  'segregation-filler-most': published(
    'UFC 3-250-03 (2001)',
    'appendix C',
    '4',
    '% of dry aggregate',
    'Cement or hydrated lime against segregation, at most',
  ),
}

function coneMethod(
  names: Pick<MethodDeclaration, 'key' | 'name' | 'shortName'>,
  { aggregate, ...text }: ConeText & { readonly aggregate: string },
  edition: BuiltInEdition,
): MethodDeclaration {
  const steps = stepsWith(aggregate)
  return {
    ...names,
    answers: [
      { property: 'consistency', result: 'consistency' },
      { property: 'water-for-consistency', result: 'water-for-consistency' },
    ],
    place: 'panel',
    madeFrom: 'batch',
    portionParameter: 'aggregate',
    batchReadings: { step: cones[0].key, keys: weighings.map(({ key }) => key) },
    form: 'cup',
    computation: 1,
    steps,
    windows: [],
    editions: [edition],
    resultOfRecord: 'consistency',
    results: coneResults,
    evaluate: (readings, setup) => evaluateFormulas(steps, readings, coneFormulas(text, readings, setup)),
  }
}

const tb106 = (value: string, unit: string, label: string) => remembered('ISSA TB-106', value, unit, label)

/** Consistency of a slurry seal by the flow of a cone, at one water or several (ISSA TB-106, ASTM D3910). */
export const coneConsistency = coneMethod(
  { key: 'cone-consistency', name: 'Cone consistency, slurry seal', shortName: 'Cone, slurry seal' },
  { source: 'ISSA TB-106, from memory, unverified', toleranceOf: 'dry', aggregate: 'Dry aggregate' },
  {
    key: 'issa-tb-106',
    designation: 'ISSA TB-106; ASTM D3910',
    year: 'year not checked',
    effectiveFrom: '2010-01-01',
    parameters: {
      ...flow,
      'cone-top': tb106('40', 'mm', 'Cone, diameter at the top'),
      'cone-base': tb106('90', 'mm', 'Cone, diameter at the base'),
      'cone-height': tb106('75', 'mm', 'Cone, height'),
      aggregate: tb106('400', 'g', 'Dry aggregate for one cone'),
      'aggregate-tolerance': practised('5', 'g', 'Dry aggregate for one cone, tolerance'),
      temperature: tb106('25', '°C', 'Temperature of the materials'),
      'temperature-tolerance': practised('2', '°C', 'Temperature of the materials, tolerance'),
    },
  },
)

const en = (value: string, unit: string, label: string) => published('EN 12274-3 (2018)', undefined, value, unit, label)

/** The same by EN 12274-3, for slurry surfacing of aggregate up to 4 mm. */
export const coneConsistencyEn = coneMethod(
  { key: 'cone-consistency-en', name: 'Cone consistency, slurry seal, EN 12274-3', shortName: 'Cone, slurry seal, EN' },
  {
    source: 'EN 12274-3, from memory, unverified',
    toleranceOf: 'weighed',
    aggregate: 'Aggregate when dry; when moist as much more as its water, with the same tolerance',
  },
  {
    key: 'en-12274-3-2018',
    designation: 'EN 12274-3',
    year: '2018',
    effectiveFrom: '2018-01-01',
    parameters: {
      ...flow,
      'largest-aggregate': en('4', 'mm', 'Scope: largest aggregate, at most'),
      'cone-top': en('40', 'mm', 'Cone, diameter at the top'),
      'cone-base': en('90', 'mm', 'Cone, diameter at the base'),
      'cone-height': en('75', 'mm', 'Cone, height'),
      'cone-tolerance': en('1', 'mm', 'Cone, tolerance of each'),
      aggregate: en('400', 'g', 'Dry aggregate for one cone'),
      'aggregate-tolerance': en('5', 'g', 'Aggregate for one cone, tolerance of what is weighed, dry or moist'),
      temperature: en('23', '°C', 'Temperature of the materials'),
      'temperature-tolerance': en('5', '°C', 'Temperature of the materials, tolerance'),
    },
  },
)
