import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import type {
  BuiltInEdition,
  ComputedResult,
  EditionParameters,
  EvaluationSetup,
  MethodDeclaration,
  ObservedReading,
  ReadingDeclaration,
  ResultDeclaration,
  StepDeclaration,
} from '../procedure/declaration.ts'
import { evaluateFormulas, type Formula, parameterOf, readingAt, resultOf } from '../procedure/evaluation.ts'
import { decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { cautions } from './cautions.ts'
import { practiceSource, practised, remembered, replicatesPractised } from './edition-parameter.ts'

const arithmetic = 'share, arithmetic'
const ofMix = '% of total dry mix'
const ofSolid = '% of dry aggregate and filler'
const ofAggregate = '% of dry aggregate'
const bases = [ofMix, ofSolid, ofAggregate] as const

/** The one study of scatter between samples of slurry surfacing that was read; its abstract only. */
export const scatterStudy =
  'Auburn University, master’s thesis on mixture sampling and binder content of slurry surfacing systems, abstract; year not seen'

/** What every binder content of a sample says of itself beside its limit. */
const reporting = {
  words:
    'in per cent with its basis and the method. A study of slurry surfacing samples by ignition found ±0.426 % within one laboratory and ±1.051 % between laboratories: a job tolerance of ±0.5 % is hardly more than the first and less than the second',
  source: scatterStudy,
}

const label = (basis: string) => `Binder content, ${basis}`
const moistures = {
  wet: { key: 'moisture-of-wet', label: 'Moisture, % of wet mass', displayDecimals: 2 },
  dry: { key: 'moisture-of-dry', label: 'Moisture, % of dry mass', displayDecimals: 2 },
} as const

/** Results that each method of a field sample gives: its moisture on both bases, and its binder on three. */
const binderSampleResults: readonly ResultDeclaration[] = [
  ...Object.values(moistures),
  ...bases.map((unit) => ({ key: 'binder-content', label: label(unit), unit, displayDecimals: 2, reporting })),
]

/** Parameters of drying a sample, shared by the methods. */
export const dryingParameters: EditionParameters = {
  ...replicatesPractised('2', 'of one sample'), // common practice, no source
  'drying-temperature': remembered('AASHTO T 329', '110', '°C', 'Oven while drying the sample'),
  'drying-temperature-tolerance': remembered('AASHTO T 329', '5', '°C', 'Oven while drying the sample, tolerance'),
  'drying-constant-mass': practised('0.1', '%', 'Constant mass: two weighings differ by no more than'),
}

/** A mass in g to type at a step. */
export function massReading(
  key: string,
  text: string,
  resolution: '0.1' | '0.001',
  to: string,
  more: Partial<ReadingDeclaration> = {},
): ReadingDeclaration {
  return {
    key,
    label: text,
    kind: 'number',
    unit: 'g',
    resolution,
    instrument: 'balance',
    plausible: { from: '0', to, source: practiceSource },
    ...more,
  }
}

/** Mineral filler of the job mix: without it, a share of the aggregate cannot be told from one of aggregate and filler. */
export const fillerReading: ReadingDeclaration = {
  key: 'filler',
  label: 'Mineral filler of the job mix (0 where there is none)',
  kind: 'number',
  unit: ofAggregate,
  resolution: '0.01',
  plausible: { from: '0', to: '4', source: practiceSource },
}

/** Drying the sample: never waited for, since a sample may come dry; both masses give the moisture. */
export const dryingStep: StepDeclaration = {
  key: 'dry',
  title: 'Dry the sample',
  instruction:
    'Quarter the sample down, break it up, and dry it in the oven to constant mass before anything else: water that stays is counted as binder. Type both masses where the moisture of the sample is wanted.',
  cautions: [cautions.oven, cautions.microwave],
  events: ['start', 'end'],
  eventLabels: { start: 'In the oven', end: 'Out of the oven' },
  readings: [
    massReading('wet-mass', 'Sample as it came, without its pan', '0.1', '5000', { optional: true }),
    massReading('dry-mass', 'Sample dried, without its pan', '0.1', '5000', { optional: true }),
  ],
  equipment: ['oven', 'balance'],
  conditions: [
    {
      label: 'Oven',
      targetParameter: 'drying-temperature',
      toleranceParameter: 'drying-temperature-tolerance',
    },
  ],
}

/** Writes a reading into the working. @throws MethodInputError `not-positive` below zero */
export function takeMass(work: CalculationBuilder, symbol: string, name: string, reading: ObservedReading) {
  if (decimal(reading.value).lt(0))
    throw new MethodInputError('not-positive', `${name} cannot be less than 0 g.`, {
      [reading.key]: `${reading.value} g`,
    })
  work.input({ symbol, name, unit: reading.unit ?? 'g', source: 'as weighed' }, reading.value, {
    kind: 'reading',
    id: reading.id,
    key: reading.key,
  })
}

/** Moisture on both bases, where one of the two masses stands. */
function moistureFormulas(readings: readonly ObservedReading[]): readonly Formula[] {
  if (!readings.some(({ step }) => step === 'dry')) return []
  return (['wet', 'dry'] as const).map((basis) => ({
    keys: [moistures[basis].key],
    compute: () => [moisture(readings, basis)],
  }))
}

function moisture(readings: readonly ObservedReading[], basis: 'wet' | 'dry'): ComputedResult {
  const work = createCalculation()
  takeMass(work, 'wet', 'Sample as it came', readingAt(readings, 'dry', 'wet-mass'))
  takeMass(work, 'dry', 'Sample dried', readingAt(readings, 'dry', 'dry-mass'))
  const text = (symbol: string, name: string, unit = 'g') => ({ symbol, name, unit, source: arithmetic })
  if (work.difference(text('w', 'Water'), 'wet', 'dry').lt(0))
    throw new MethodInputError('gain', 'The dried sample weighs more than the moist one: look at both masses again.')
  work.product(text('h', 'A hundred times the water'), 'w', '100')
  work.quotient(text('m', moistures[basis].label, '%'), 'h', basis)
  return resultOf(work.calculation(), moistures[basis])
}

/**
 * The binder of a sample on the three bases in use. `toShare` writes the working up to line `P`, % of the total dry mix.
 * What is left when the binder is gone is aggregate and filler; the filler of the job mix tells the two apart.
 */
function binderFormula(
  readings: readonly ObservedReading[],
  fillerStep: string,
  toShare: (work: CalculationBuilder) => void,
  findingsOf: () => readonly string[],
): Formula {
  const on = (basis: (typeof bases)[number]): ComputedResult => {
    const work = createCalculation()
    toShare(work)
    const findings = findingsOf()
    const text = (symbol: string, name: string, unit: string = ofMix) => ({ symbol, name, unit, source: arithmetic })
    if (basis !== ofMix) {
      work.difference(text('A', 'Aggregate and filler'), '100', 'P')
      work.product(text('P1', 'A hundred times the binder'), 'P', '100')
      work.quotient(text('Q', label(ofSolid), ofSolid), 'P1', 'A')
    }
    if (basis === ofAggregate) {
      takeMass(work, 'f', 'Mineral filler of the job mix', readingAt(readings, fillerStep, 'filler'))
      work.sum(text('S', 'Aggregate and filler for 100 of aggregate', ofAggregate), '100', 'f')
      work.product(text('Q1', 'Binder times that sum', ofSolid), 'Q', 'S')
      work.quotient(text('R', label(ofAggregate), ofAggregate), 'Q1', '100')
    }
    return {
      ...resultOf(work.calculation(), { key: 'binder-content', label: label(basis), displayDecimals: 2 }),
      ...(findings.length > 0 ? { findings } : {}),
    }
  }
  return { keys: ['binder-content'], compute: () => bases.map(on) }
}

/** @throws MethodInputError `inconsistent` for a binder that no mix can have */
export function assertShare(value: { lte: (n: number) => boolean; gte: (n: number) => boolean }, digits: string) {
  if (value.lte(0) || value.gte(100))
    throw new MethodInputError(
      'inconsistent',
      'A binder content lies between 0 and 100 % of the mix: look at the masses and the correction again.',
      { binder: `${digits} ${ofMix}` },
    )
}

/** The sentence for a test portion smaller than the edition asks for. */
function portionFindings(mass: string, setup: EvaluationSetup): readonly string[] {
  const least = parameterOf(setup, 'portion-least')
  return decimal(mass).lt(least.value)
    ? [`The portion of ${mass} g is less than the ${least.value} g that the edition asks for.`]
    : []
}

/** What one method of a field sample has of its own. */
type BinderSample = {
  readonly names: Pick<MethodDeclaration, 'key' | 'name' | 'shortName'>
  readonly edition: BuiltInEdition
  readonly steps: readonly StepDeclaration[]
  /** What is found on the way to the binder, and told by itself; its working ends in it. */
  readonly found: ResultDeclaration
  readonly findIn: (work: CalculationBuilder, readings: readonly ObservedReading[]) => void
  /** Step at which the filler of the job mix is typed. */
  readonly fillerStep: string
  /** Writes the working up to line `P`, % of the total dry mix. */
  readonly binderIn: (work: CalculationBuilder, readings: readonly ObservedReading[]) => void
  /** Dried test portion in g, digits. */
  readonly portionOf: (readings: readonly ObservedReading[]) => string
}

/** With the repeatability of the edition, where it holds one in this unit. */
function heldBy({ parameters }: BuiltInEdition, result: ResultDeclaration): ResultDeclaration {
  const held = parameters['repeatability']
  return held && held.unit === result.unit ? { ...result, repeatability: 'repeatability' } : result
}

/** Binder content of a field sample, whichever way the binder is taken out: dried first, its moisture and three bases with it. */
export function binderSampleMethod({
  names,
  edition,
  steps,
  found,
  findIn,
  fillerStep,
  binderIn,
  portionOf,
}: BinderSample): MethodDeclaration {
  return {
    ...names,
    answers: [{ property: 'residual-binder-content', result: 'binder-content' }],
    place: 'panel',
    madeFrom: 'materials',
    ofSample: true,
    form: 'loose',
    computation: 1,
    steps,
    windows: [],
    editions: [edition],
    resultOfRecord: 'binder-content',
    results: [found, ...binderSampleResults.map((result) => heldBy(edition, result))],
    evaluate: (readings, setup) =>
      evaluateFormulas(steps, readings, [
        ...moistureFormulas(readings),
        {
          keys: [found.key],
          compute: () => {
            const work = createCalculation()
            findIn(work, readings)
            return [resultOf(work.calculation(), found)]
          },
        },
        binderFormula(
          readings,
          fillerStep,
          (work) => binderIn(work, readings),
          () => portionFindings(portionOf(readings), setup),
        ),
      ]),
  }
}
