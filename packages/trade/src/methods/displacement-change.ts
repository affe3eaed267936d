import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import type { ComputedResult, EvaluationSetup, ObservedReading } from '../procedure/declaration.ts'
import { parameterOf, readingAt, resultOf } from '../procedure/evaluation.ts'
import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { round } from '../quantity/rounding.ts'
import { optionalReading, outsideUsual, takeParameter, takePositive } from './working-inputs.ts'

const source = 'ISSA TB-147, from memory, unverified'

/** Lateral: wider than before, of the width before. Vertical: thinner than before, of the thickness before. */
export const displacements = {
  lateral: {
    key: 'lateral-displacement',
    label: 'Lateral displacement',
    measured: 'width',
    words: 'Width',
    usualMost: 'lateral-usual-most',
    reversed: { code: 'loss', words: 'narrower' },
  },
  vertical: {
    key: 'vertical-displacement',
    label: 'Vertical displacement',
    measured: 'thickness',
    words: 'Thickness',
    usualMost: 'vertical-usual-most',
    reversed: { code: 'gain', words: 'thicker' },
  },
} as const
export type Direction = keyof typeof displacements

/** Where on the strip: at mid-length, or at one of the quarter points. */
type Place = { readonly symbol: string; readonly key: '' | '-quarter'; readonly repeat: number; readonly words: string }
const midLength: Place = { symbol: '', key: '', repeat: 1, words: 'at mid-length' }
const places: readonly Place[] = [
  { symbol: '1', key: '-quarter', repeat: 1, words: 'at the first quarter point' },
  { ...midLength, symbol: '2' },
  { symbol: '3', key: '-quarter', repeat: 2, words: 'at the second quarter point' },
]

export const meanKey = (direction: Direction) => `${displacements[direction].key}-mean`
export const meanLabel = (direction: Direction) => `${displacements[direction].label}, mean of three places`

/**
 * Displacement at mid-length, % of the measure before. Slightly negative is the calliper and is used with a sentence.
 * @throws MethodInputError `not-positive`; `inconsistent` for a thickness that is no more than the plate; `loss` or `gain`
 * for a strip that became narrower or thicker by more than the edition lets pass
 */
export function displacement(
  direction: Direction,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): ComputedResult {
  const { key, label } = displacements[direction]
  const work = createCalculation()
  const value = displacementAt(work, direction, midLength, readings, setup)
  const findings = findingsOf(direction, value, setup)
  return { ...resultOf(work.calculation(), { key, label, displayDecimals: 1 }), findings }
}

/** The mean of the displacements at mid-length and both quarter points; none while not all of them were read. */
export function meanDisplacement(
  direction: Direction,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): readonly ComputedResult[] {
  const { measured } = displacements[direction]
  const slots = places.flatMap(({ key, repeat }) => [
    optionalReading(readings, 'measure-before', `${measured}${key}`, repeat),
    optionalReading(readings, 'measure-after', `${measured}${key}`, repeat),
  ])
  if (slots.includes(undefined)) return []
  const work = createCalculation()
  for (const place of places) displacementAt(work, direction, place, readings, setup)
  const label = meanLabel(direction)
  work.mean({ symbol: 'M', name: label, unit: '%', source }, ...places.map(({ symbol }) => `P${symbol}`))
  return [resultOf(work.calculation(), { key: meanKey(direction), label, displayDecimals: 1 })]
}

function displacementAt(
  work: CalculationBuilder,
  direction: Direction,
  place: Place,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): Decimal {
  const { label, measured, words } = displacements[direction]
  const at = place.symbol
  const take = (symbol: string, step: string, when: string) =>
    takePositive(
      work,
      { symbol: `${symbol}${at}`, name: `${words} ${when}, ${place.words}`, unit: 'mm', source: 'as measured' },
      readingAt(readings, step, `${measured}${place.key}`, place.repeat),
    )
  take('b', 'measure-before', 'before')
  take('a', 'measure-after', 'after')
  const overPlate =
    direction === 'vertical' && readingAt(readings, 'measure-before', 'thickness-over').value === 'plate'
  const before = overPlate ? withoutPlate(work, `b${at}`, readings, setup) : `b${at}`
  const [from, subtract] = direction === 'lateral' ? [`a${at}`, `b${at}`] : [`b${at}`, `a${at}`]
  // The plate is in both measures and drops out of the difference; of the measure before it has to be taken off.
  work.difference({ symbol: `D${at}`, name: `${label}, ${place.words}`, unit: 'mm', source }, from, subtract)
  work.product({ symbol: `h${at}`, name: 'A hundred times that', unit: 'mm', source }, `D${at}`, '100')
  const name = `${label}, ${place.words}`
  const value = work.quotient({ symbol: `P${at}`, name, unit: '%', source }, `h${at}`, before)
  refuseReversed(direction, value, setup)
  return value
}

/** Thickness of the strip without its plate: measured, or as the edition has plates. @returns its symbol */
function withoutPlate(
  work: CalculationBuilder,
  symbol: string,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): string {
  const plate = `t${symbol}`
  const measured = optionalReading(readings, 'measure-before', 'plate-thickness')
  const text = { symbol: plate, name: 'Thickness of the plate', unit: 'mm', source: 'as measured' } as const
  if (measured) takePositive(work, text, measured)
  else takeParameter(work, plate, setup, 'plate-thickness')
  const name = 'Thickness before, without the plate'
  const strip = work.difference({ symbol: `s${symbol}`, name, unit: 'mm', source: 'arithmetic' }, symbol, plate)
  if (strip.gt(0)) return `s${symbol}`
  throw new MethodInputError(
    'inconsistent',
    'The thickness before is no more than the plate alone: measured over the strip without its plate?',
    { thickness: `${plainDigits(strip)} mm without the plate` },
  )
}

function refuseReversed(direction: Direction, value: Decimal, setup: EvaluationSetup): void {
  const most = parameterOf(setup, 'reversed-most')
  if (value.gte(decimal(most.value).neg())) return
  const { reversed, measured } = displacements[direction]
  const shown = `${round(plainDigits(value.abs()), 1, 'half-even')} %`
  throw new MethodInputError(
    reversed.code,
    `The strip is ${shown} ${reversed.words} after the wheel than before: before and after exchanged, or not this strip? Measure the ${measured} again.`,
    { [reversed.code]: shown },
  )
}

function findingsOf(direction: Direction, value: Decimal, setup: EvaluationSetup): readonly string[] {
  const { label, usualMost, reversed } = displacements[direction]
  if (value.lt(0))
    return [
      `The strip is ${round(plainDigits(value.abs()), 2, 'half-even')} % ${reversed.words} than before; within what a calliper repeats, and used all the same.`,
    ]
  return outsideUsual(label, value, '%', { most: parameterOf(setup, usualMost) })
}
