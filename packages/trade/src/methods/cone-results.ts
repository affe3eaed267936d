import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import type { ComputedResult, EvaluationSetup, ObservedReading, ResultDeclaration } from '../procedure/declaration.ts'
import { parameterOf, readingAt, resultOf, type Formula } from '../procedure/evaluation.ts'
import { decimal, plainDigits, type Decimal } from '../quantity/decimal.ts'
import { displayDigits } from '../quantity/display.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { firstCrossing, type SeriesPoint } from './first-crossing.ts'
import { offTarget } from './off-target.ts'

/** The cones of one series: the first stands for the mix, the others search its water. */
export const cones = [
  { key: 'cone-1', required: true },
  { key: 'cone-2', required: false },
  { key: 'cone-3', required: false },
  { key: 'cone-4', required: false },
  { key: 'cone-5', required: false },
] as const
/** Places round the rim at which the flow is read. ISSA TB-106, from memory, unverified. */
const places = [1, 2, 3, 4] as const

const consistency = { key: 'consistency', label: 'Consistency, flow of the cone', displayDecimals: 1 }
const water = { key: 'water-for-consistency', label: 'Added water for the flow wanted', displayDecimals: 1 }
const onDryAggregate = '% of dry aggregate'

/** What differs between the bulletins and the European standard. */
export type ConeText = {
  readonly source: string
  /**
   * Of which mass of the aggregate the edition's tolerance is: of the dry, or as it is weighed, moist, about
   * 400 × (100 + W) ÷ 100 g.
   */
  readonly toleranceOf: 'dry' | 'weighed'
}

/** The results of a cone series, in words. */
export const coneResults: readonly ResultDeclaration[] = [
  { ...consistency, unit: 'mm' },
  { ...water, unit: onDryAggregate },
]

/**
 * Flow of the first cone, the mean of four places; with further cones the added water at which the flow first reaches the
 * one wanted, between the two neighbouring waters.
 */
export function coneFormulas(
  text: ConeText,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): readonly Formula[] {
  const further = cones.slice(1).filter(({ key }) => readings.some(({ step }) => step === key))
  return [
    { keys: [consistency.key], compute: () => [flowOfMix(text, readings, setup)] },
    ...(further.length > 0
      ? [{ keys: [water.key], compute: () => [waterWanted([cones[0], ...further], text, readings, setup)] }]
      : []),
  ]
}

/** Writes the four places and their mean as `f` + suffix. */
function flowOf(
  work: CalculationBuilder,
  cone: string,
  suffix: string,
  source: string,
  readings: readonly ObservedReading[],
): Decimal {
  const symbols = places.map((place) => {
    const reading = readingAt(readings, cone, 'flow', place)
    if (decimal(reading.value).lt(0))
      throw new MethodInputError('not-positive', 'A flow cannot be less than 0 mm: read it again.', {
        flow: `${reading.value} mm`,
      })
    const symbol = `f${suffix}${place}`
    work.input(
      { symbol, name: `Flow at place ${place}, ${words(cone)}`, unit: 'mm', source: 'as read' },
      reading.value,
      {
        kind: 'reading',
        id: reading.id,
        key: 'flow',
      },
    )
    return symbol
  })
  return work.mean({ symbol: `f${suffix}`, name: `Flow, ${words(cone)}`, unit: 'mm', source }, ...symbols)
}

/** Writes the added water of a cone in % of dry aggregate as `w` + suffix. */
function waterOf(
  work: CalculationBuilder,
  cone: string,
  suffix: string,
  readings: readonly ObservedReading[],
): Decimal {
  assertWeighed(cone, readings)
  dryOf(work, cone, suffix, readings)
  const reading = readingAt(readings, cone, 'water')
  if (decimal(reading.value).lt(0))
    throw new MethodInputError('not-positive', 'Added water cannot be less than 0 g.', { water: `${reading.value} g` })
  const arithmetic = 'share of dry aggregate, arithmetic'
  const name = `Added water, ${words(cone)}`
  work.input({ symbol: `W${suffix}`, name, unit: 'g', source: 'as weighed' }, reading.value, {
    kind: 'reading',
    id: reading.id,
    key: 'water',
  })
  work.product({ symbol: `H${suffix}`, name: `A hundred times it`, unit: 'g', source: arithmetic }, `W${suffix}`, '100')
  return work.quotient(
    { symbol: `w${suffix}`, name, unit: onDryAggregate, source: arithmetic },
    `H${suffix}`,
    `D${suffix}`,
  )
}

/** The first cone is weighed with the batch. @throws MethodInputError `missing-reading` */
function assertWeighed(cone: string, readings: readonly ObservedReading[]): void {
  const has = (key: string) => readings.some((reading) => reading.step === cone && reading.key === key)
  if (cone === cones[0].key && !(has('aggregate') && has('water')))
    throw new MethodInputError(
      'missing-reading',
      'The first cone is the batch of the sheet, and its aggregate and water are not weighed yet, or wait for release.',
    )
}

/** Writes the dry aggregate of a cone as `D` + suffix: as weighed ÷ (1 + moisture ÷ 100). */
function dryOf(work: CalculationBuilder, cone: string, suffix: string, readings: readonly ObservedReading[]): Decimal {
  const aggregate = readingAt(readings, cone, 'aggregate')
  const moisture = readingAt(readings, 'prepare', 'moisture')
  if (decimal(aggregate.value).lte(0))
    throw new MethodInputError('not-positive', 'The aggregate of a cone must weigh more than 0 g.', {
      aggregate: `${aggregate.value} g`,
    })
  if (decimal(moisture.value).lt(0))
    throw new MethodInputError('not-positive', 'The moisture of the aggregate cannot be less than 0 %.', {
      moisture: `${moisture.value} %`,
    })
  const source = 'dry from moist mass, arithmetic'
  const name = `Aggregate, ${words(cone)}`
  work.input({ symbol: `M${suffix}`, name, unit: 'g', source: 'as weighed' }, aggregate.value, {
    kind: 'reading',
    id: aggregate.id,
    key: 'aggregate',
  })
  const [m, p, q] = [`m${suffix}`, `p${suffix}`, `q${suffix}`]
  work.input({ symbol: m, name: 'Moisture of the aggregate', unit: '%', source: 'as read' }, moisture.value, {
    kind: 'reading',
    id: moisture.id,
    key: 'moisture',
  })
  work.quotient({ symbol: p, name: 'Moisture as a fraction', unit: '1', source }, m, '100')
  work.sum({ symbol: q, name: 'Moist over dry', unit: '1', source }, '1', p)
  return work.quotient(
    { symbol: `D${suffix}`, name: `Dry aggregate, ${words(cone)}`, unit: 'g', source },
    `M${suffix}`,
    q,
  )
}

function flowOfMix(text: ConeText, readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedResult {
  const [{ key }] = cones
  const work = createCalculation()
  flowOf(work, key, '', text.source, readings)
  return withFindings(resultOf(work.calculation(), consistency), [
    ...offTarget('The materials had', readingAt(readings, 'prepare', 'temperature'), setup.parameters, 'temperature'),
    ...offAggregate(key, text, readings, setup),
    ...segregated([key], readings, setup),
  ])
}

type Cone = SeriesPoint & { readonly key: string }

function waterWanted(
  read: readonly (typeof cones)[number][],
  form: ConeText,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): ComputedResult {
  const { source } = form
  const wanted = parameterOf(setup, 'flow-wanted')
  const points = read.map(({ key }): Cone => {
    const scratch = createCalculation()
    return { key, x: waterOf(scratch, key, '', readings), y: flowOf(scratch, key, '', source, readings) }
  })
  const named = ({ x, y }: Cone) =>
    `${displayDigits(plainDigits(y), { decimals: 1 })} mm at ${displayDigits(plainDigits(x), { decimals: 1 })} % of water`
  const crossing = firstCrossing(points, decimal(wanted.value), {
    startsAbove: (first) =>
      `The driest cone flows ${named(first)} already, more than the ${wanted.value} mm wanted: try less water.`,
    staysBelow: (highest) => `No cone flows ${wanted.value} mm, the highest gives ${named(highest)}: try more water.`,
    samePlace: (one, other) =>
      `${capital(words(one.key))} and ${words(other.key)} have the same water: one of their weighings is mistyped, or one is left out.`,
  })
  const work = createCalculation()
  work.input({ symbol: 'f', name: wanted.label, unit: 'mm', source: wanted.source }, wanted.value, {
    kind: 'parameter',
    key: 'flow-wanted',
  })
  const text = { symbol: 'w', name: water.label, unit: onDryAggregate, source }
  const used = 'on' in crossing ? [crossing.on] : [crossing.before, crossing.after]
  used.forEach(({ key }, index) => {
    flowOf(work, key, ['a', 'b'][index]!, source, readings)
    waterOf(work, key, ['a', 'b'][index]!, readings)
  })
  if ('on' in crossing) work.sum(text, 'wa')
  else work.interpolate(text, 'f', 'fa', 'wa', 'fb', 'wb')
  const keys = used.map(({ key }) => key)
  return withFindings(resultOf(work.calculation(), water), [
    ...keys.flatMap((key) => offAggregate(key, form, readings, setup)),
    ...segregated(keys, readings, setup),
  ])
}

/** Nothing where the aggregate is not known: the flow of the mix was read whether or not its batch is weighed. */
function offAggregate(
  key: string,
  { toleranceOf }: ConeText,
  readings: readonly ObservedReading[],
  { parameters }: EvaluationSetup,
): readonly string[] {
  if (!readings.some((reading) => reading.step === key && reading.key === 'aggregate')) return []
  const dry = plainDigits(dryOf(createCalculation(), key, '', readings))
  const moisture = readingAt(readings, 'prepare', 'moisture').value
  const isMoist = toleranceOf === 'weighed' && decimal(moisture).gt(0)
  if (!isMoist) {
    const shown = displayDigits(dry, { decimals: 2 })
    return offTarget(`${capital(words(key))} had dry aggregate of`, { value: dry, shown }, parameters, 'aggregate')
  }
  const target = parameterOf({ parameters }, 'aggregate')
  // 400 × (100 + W) ÷ 100 ± 5 g: EN 12274-3 (2018)
  const moist = { ...target, value: plainDigits(decimal('100').plus(moisture).times(target.value).div('100')) }
  const what = `${capital(words(key))} had aggregate with ${moisture} % of moisture of`
  return offTarget(what, readingAt(readings, key, 'aggregate'), { ...parameters, aggregate: moist }, 'aggregate')
}

function segregated(keys: readonly string[], readings: readonly ObservedReading[], setup: EvaluationSetup) {
  const [least, most] = ['least', 'most'].map((end) => parameterOf(setup, `segregation-filler-${end}`).value)
  return keys.flatMap((key) => {
    const seen = readings.find((reading) => reading.step === key && reading.key === 'segregation')?.value ?? 'none'
    if (seen === 'none') return []
    return [`${capital(words(key))} segregated: ${least} to ${most} % of cement or hydrated lime may hold it together.`]
  })
}

const words = (cone: string): string => cone.replace('-', ' ')
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

function withFindings(result: ComputedResult, findings: readonly string[]): ComputedResult {
  return findings.length > 0 ? { ...result, findings } : result
}
