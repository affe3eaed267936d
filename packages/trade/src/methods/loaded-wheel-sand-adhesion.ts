import type {
  BuiltInEdition,
  MethodDeclaration,
  ReadingDeclaration,
  StepDeclaration,
  WeighedPair,
  WindowDeclaration,
} from '../procedure/declaration.ts'
import { evaluateFormulas } from '../procedure/evaluation.ts'
import { cautions } from './cautions.ts'
import { practiceSource, practised, published, remembered, replicatesPractised } from './edition-parameter.ts'
import { weighedDifferenceFormulas, weighedDifferenceResults, type WeighedDifference } from './weighed-difference.ts'
import { coolStep, ovenStep } from './oven-steps.ts'
import { wheelStep } from './wheel-step.ts'

const tb109 = (value: string, unit: string, label: string) => remembered('ISSA TB-109', value, unit, label)
const tb109Unsure = (value: string, unit: string, label: string) =>
  remembered('ISSA TB-109, unsure of the value', value, unit, label)
const tb109Read = (value: string, unit: string, label: string, clause?: string) =>
  published('ISSA TB-109 (2018)', clause, value, unit, label)

const edition: BuiltInEdition = {
  key: 'issa-tb-109-2018',
  designation: 'ISSA TB-109',
  year: '2018',
  effectiveFrom: '2018-01-01',
  parameters: {
    ...replicatesPractised('3'), // common practice, no source
    'mould-excess-least': tb109Read('25', '%', 'More mix than fills the mould, at least'),
    'mould-excess-most': tb109Read('35', '%', 'More mix than fills the mould, at most'),
    'mould-over-largest-particle': tb109Read('25', '%', 'Mould thicker than the coarsest particle by about'),
    aggregate: tb109Read('300', 'g', 'Dry aggregate for the 6.4 mm mould, normally'),
    'strip-width': tb109('50.8', 'mm', 'Strip, width'),
    'strip-length': tb109('381', 'mm', 'Strip, length'),
    'emulsion-to-casting': tb109Read('30', 's', 'Emulsion to casting'),
    'cure-temperature': tb109Read('60', '°C', 'Oven while curing', '3.6'),
    'cure-temperature-tolerance': tb109Read('3', '°C', 'Oven while curing, tolerance', '3.6'),
    'cure-earliest': tb109Read('12', 'h', 'Cure, at least, to constant mass; no upper end', '3.6'),
    'constant-mass': practised('0.1', 'g', 'Constant mass: two weighings of a check strip differ by no more than'),
    'constant-mass-interval': practised('1', 'h', 'Constant mass: time between the two weighings'),
    'balance-step': practised('0.01', 'g', 'Balance, smallest step'),
    'wheel-load': tb109Read('125', 'lb', 'Load on the wheel, set on a platform scale with the arm level'),
    'wheel-load-tolerance': tb109Read('1', 'lb', 'Load on the wheel, tolerance'),
    'wheel-diameter': tb109('76', 'mm', 'Wheel, diameter of the tyre'),
    'wheel-width': tb109('25', 'mm', 'Wheel, width of the tyre'),
    'tyre-hardness-least': tb109('60', 'count', 'Tyre, hardness by durometer A, at least'),
    'tyre-hardness-most': tb109('70', 'count', 'Tyre, hardness by durometer A, at most'),
    stroke: tb109('305', 'mm', 'Stroke of the wheel'),
    'cycle-rate': tb109('44', 'count', 'Cycles in a minute'),
    'conditioning-cycles': tb109('1000', 'count', 'Conditioning cycles'),
    'room-temperature': tb109('25', '°C', 'Room while the wheel runs'),
    'room-temperature-tolerance': tb109('2', '°C', 'Room while the wheel runs, tolerance'),
    'drying-temperature': tb109('60', '°C', 'Oven after washing'),
    'drying-temperature-tolerance': practised('3', '°C', 'Oven after washing, tolerance'),
    'sand-mass': tb109Unsure('300', 'g', 'Sand for one strip; other editions 200 g'),
    'sand-temperature': tb109('82', '°C', 'Sand when poured'),
    'sand-temperature-tolerance': practised('4', '°C', 'Sand when poured, asked about beyond'),
    'sand-cycles': tb109('100', 'count', 'Cycles over the sand'),
    'frame-width': tb109Unsure('38.1', 'mm', 'Opening of the sand frame, width'),
    'frame-length': tb109Unsure('355.6', 'mm', 'Opening of the sand frame, length'),
    'factor-difference': practised('2', '%', 'Factor against measured opening, asked about beyond'),
  },
}

const stripMass = (): ReadingDeclaration => ({
  key: 'mass',
  label: 'Mass, with plate',
  kind: 'number',
  unit: 'g',
  resolution: '0.01',
  instrument: 'balance',
  plausible: { from: '320', to: '670', source: practiceSource },
})

const steps: readonly StepDeclaration[] = [
  {
    key: 'cast',
    title: 'Cast the strip',
    instruction:
      'Use a weighed, numbered plate. Fill the mould with the mix, strike off and lift the mould when the mix stands. Mark the code on the plate.',
    cautions: [cautions.emulsion, cautions.filler],
    events: ['start'],
    eventLabels: { start: 'Cast' },
    readings: [
      { key: 'plate', label: 'Plate number', kind: 'text', optional: true },
      {
        key: 'plate-tare',
        label: 'Plate alone',
        kind: 'number',
        unit: 'g',
        resolution: '0.01',
        plausible: { from: '135', to: '165', source: practiceSource },
        optional: true,
        instrument: 'balance',
      },
    ],
    equipment: [],
    conditions: [],
  },
  ovenStep(
    {
      key: 'cure',
      title: 'Cure in the oven',
      instruction: 'Dry to constant mass, checked on the richest strips, weighed warm against warm.',
    },
    'cure-temperature',
  ),
  coolStep({ key: 'cool', instruction: 'Let the strip cool to room temperature before it goes under the wheel.' }),
  wheelStep({ title: 'Run the conditioning cycles' }, 'conditioning-cycles'),
  ovenStep(
    { key: 'dry', title: 'Wash and dry', instruction: 'Wash off what is loose and dry to constant mass.' },
    'drying-temperature',
  ),
  coolStep({ key: 'cool-after', instruction: 'Let the strip cool to room temperature before it is weighed.' }),
  {
    key: 'weigh-before',
    title: 'Weigh before sanding (W1)',
    instruction: 'Weigh the strip on its plate, cold and dry. After sanding this number can never be had again.',
    cautions: [],
    events: [],
    readings: [stripMass()],
    equipment: ['balance'],
    conditions: [],
  },
  {
    key: 'sand',
    title: 'Run the sand cycles',
    instruction:
      'Lay the frame on the strip, pour the hot sand evenly, lay the metal strip over the sand so that the wheel does not plough, and run the cycles.',
    cautions: [cautions.sand, cautions.dust, cautions.wheel, cautions.alone],
    events: ['start'],
    eventLabels: { start: 'Sand poured, wheel started' },
    readings: [
      {
        key: 'sand-mass',
        label: 'Sand poured',
        kind: 'number',
        unit: 'g',
        resolution: '1',
        plausible: { from: '190', to: '310', source: practiceSource },
        optional: true,
        instrument: 'balance',
      },
      {
        key: 'sand-temperature',
        label: 'Sand when poured',
        kind: 'number',
        unit: '°C',
        resolution: '1',
        plausible: { from: '78', to: '86', source: practiceSource },
        optional: true,
        instrument: 'thermometer',
      },
    ],
    equipment: ['loaded-wheel'],
    conditions: [
      { label: 'Sand', targetParameter: 'sand-temperature', toleranceParameter: 'sand-temperature-tolerance' },
      { label: 'Cycles', targetParameter: 'sand-cycles' },
      { label: 'Load on the wheel', targetParameter: 'wheel-load', toleranceParameter: 'wheel-load-tolerance' },
    ],
    runCycles: { totalParameter: 'sand-cycles', perMinuteParameter: 'cycle-rate' },
    needs: ['weigh-before'],
  },
  {
    key: 'weigh-after',
    title: 'Weigh after sanding (W2)',
    instruction:
      'Take the frame off, tap, brush and vacuum gently what is loose, and weigh the strip on its plate at once.',
    cautions: [cautions.dust],
    events: [],
    readings: [stripMass()],
    equipment: ['balance'],
    conditions: [],
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
]

const pair: WeighedPair = {
  before: { step: 'weigh-before', key: 'mass' },
  after: { step: 'weigh-after', key: 'mass' },
  sense: 'gain',
  unit: 'g',
  plausible: { from: '1', to: '15', source: practiceSource },
  seriesSpread: { percent: '8', source: practiceSource },
}

const weighed: WeighedDifference = {
  pair,
  difference: { key: 'adhesion', label: 'Sand adhesion', displayDecimals: 2 },
  perArea: { key: 'adhesion-per-area', label: 'Sand adhesion per area' },
  source: 'ISSA TB-109, from memory, unverified',
  impossible: (amount) =>
    `Loss of ${amount} where sand can only add: not this strip, or mix lost with the sand? Check the plate and weigh again.`,
  factorWords: 'factor of the sand frame',
}

/** Adhesion = W2 − W1; per area = adhesion × factor of the frame opening, one for each unit that the machine holds. */
export const loadedWheelSandAdhesion: MethodDeclaration = {
  key: 'loaded-wheel-sand-adhesion',
  name: 'Loaded wheel sand adhesion',
  shortName: 'Sand adhesion',
  answers: [{ property: 'sand-adhesion', result: 'adhesion-per-area' }],
  place: 'series',
  madeFrom: 'batch',
  form: 'strip',
  computation: 1,
  steps,
  windows,
  editions: [edition],
  machine: { kind: 'loaded-wheel', factorKey: 'frame' },
  resultOfRecord: 'adhesion-per-area',
  results: weighedDifferenceResults(weighed),
  pair,
  evaluate: (readings, setup) => evaluateFormulas(steps, readings, weighedDifferenceFormulas(weighed, readings, setup)),
}
