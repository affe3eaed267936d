import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import type {
  BuiltInEdition,
  ComputedResult,
  MethodDeclaration,
  ObservedReading,
  ReadingDeclaration,
  StepDeclaration,
} from '../procedure/declaration.ts'
import { evaluateFormulas, readingAt, resultOf } from '../procedure/evaluation.ts'
import { plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { cautions } from './cautions.ts'
import { practised, replicatesPractised } from './edition-parameter.ts'
import { takePositive } from './working-inputs.ts'

/**
 * Of EN 12274-7:2005 the scope alone was read: it tells how far aggregates, cationic emulsions and additives suit each
 * other, with a standard mixture, and gives g and %. Mixture, specimen, water, shaking time and limits stand in the
 * laboratory's own copy: here they are written down, never presumed.
 */
const source = 'EN 12274-7 (2005), scope; the loss as arithmetic'
const own = 'as the laboratory’s copy of EN 12274-7 says'

const edition: BuiltInEdition = {
  key: 'en-12274-7-2005',
  designation: 'EN 12274-7',
  year: '2005',
  effectiveFrom: '2005-01-01',
  parameters: {
    ...replicatesPractised('1'), // common practice, no source
    'balance-step': practised('0.01', 'g', 'Balance, smallest step'),
  },
}

const mass: ReadingDeclaration = {
  key: 'mass',
  label: 'Mass',
  kind: 'number',
  unit: 'g',
  resolution: '0.01',
  instrument: 'balance',
}

const steps: readonly StepDeclaration[] = [
  {
    key: 'prepare',
    title: 'Make the specimen',
    instruction: `Make and condition the specimen ${own}; note the mixture and how it was conditioned.`,
    cautions: [cautions.emulsion, cautions.filler, cautions.additive, cautions.dust],
    events: ['end'],
    eventLabels: { end: 'Specimen ready' },
    readings: [
      { key: 'mixture', label: 'Mixture', kind: 'text' },
      { key: 'conditioning', label: 'Conditioning', kind: 'text', optional: true },
    ],
    equipment: [],
    conditions: [],
  },
  {
    key: 'weigh-before',
    title: 'Weigh before shaking (W1)',
    instruction: `Weigh the specimen in the state ${own}. After shaking this number can never be had again.`,
    cautions: [],
    events: [],
    readings: [mass],
    equipment: ['balance'],
    conditions: [],
  },
  {
    key: 'shake',
    title: 'Shake',
    instruction: `Shake the specimen ${own}; note the turns or strokes, and the water.`,
    cautions: [cautions.tumbler, cautions.alone],
    events: ['start', 'end'],
    eventLabels: { start: 'Shaking started', end: 'Shaking stopped' },
    readings: [
      { key: 'turns', label: 'Turns or strokes', kind: 'count', unit: 'count', resolution: '1', optional: true },
      { key: 'water', label: 'Water', kind: 'number', unit: 'mL', resolution: '1', optional: true },
      {
        key: 'water-temperature',
        label: 'Water, temperature',
        kind: 'number',
        unit: '°C',
        resolution: '0.1',
        optional: true,
        instrument: 'thermometer',
      },
      { key: 'observation', label: 'What was seen', kind: 'text', optional: true },
    ],
    equipment: [],
    conditions: [],
    needs: ['weigh-before'],
  },
  {
    key: 'weigh-after',
    title: 'Weigh after shaking (W2)',
    instruction: 'Weigh the same specimen in the same state as before: wet against wet, or dry against dry.',
    cautions: [],
    events: [],
    readings: [mass],
    equipment: ['balance'],
    conditions: [],
  },
]

const loss = { key: 'loss', label: 'Shaking abrasion, loss', displayDecimals: 2 }
const share = { key: 'loss-share', label: 'Shaking abrasion, loss of mass before', displayDecimals: 1 }

function weigh(work: CalculationBuilder, readings: readonly ObservedReading[]): void {
  const before = readingAt(readings, 'weigh-before', 'mass')
  const after = readingAt(readings, 'weigh-after', 'mass')
  const text = { unit: 'g', source: 'as weighed' } as const
  takePositive(work, { symbol: 'W1', name: 'Mass before shaking', ...text }, before)
  takePositive(work, { symbol: 'W2', name: 'Mass after shaking', ...text }, after)
  const lost = work.difference({ symbol: 'D', name: loss.label, unit: 'g', source }, 'W1', 'W2')
  if (lost.gte(0)) return
  const gain = `${plainDigits(lost.abs())} g`
  throw new MethodInputError(
    'gain',
    `Gain of ${gain}: wetter than before, or not this specimen? Bring it to the same state and weigh again.`,
    { gain, W1: `${before.value} g`, W2: `${after.value} g` },
  )
}

function lossOf(readings: readonly ObservedReading[]): ComputedResult {
  const work = createCalculation()
  weigh(work, readings)
  return resultOf(work.calculation(), loss)
}

function shareOf(readings: readonly ObservedReading[]): ComputedResult {
  const work = createCalculation()
  weigh(work, readings)
  work.product({ symbol: 'h', name: 'A hundred times the loss', unit: 'g', source }, 'D', '100')
  work.quotient({ symbol: 'P', name: share.label, unit: '%', source }, 'h', 'W1')
  return resultOf(work.calculation(), share)
}

/** Loss of a specimen in the shaking abrasion test, g and % of its mass before, as far as EN 12274-7 is known here. */
export const shakingAbrasion: MethodDeclaration = {
  key: 'shaking-abrasion',
  name: 'Shaking abrasion',
  shortName: 'Shaking',
  answers: [
    { property: 'shaking-abrasion', result: 'loss' },
    { property: 'shaking-abrasion-share', result: 'loss-share' },
  ],
  place: 'panel',
  madeFrom: 'materials',
  form: 'pill',
  computation: 1,
  steps,
  windows: [],
  editions: [edition],
  resultOfRecord: 'loss',
  results: [
    { ...loss, unit: 'g', reporting: { words: 'In g, with mixture, conditioning and shaking as noted', source } },
    { ...share, unit: '%' },
  ],
  evaluate: (readings) =>
    evaluateFormulas(steps, readings, [
      { keys: [loss.key], compute: () => [lossOf(readings)] },
      { keys: [share.key], compute: () => [shareOf(readings)] },
    ]),
}
