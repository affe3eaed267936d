import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import type {
  ComputedResult,
  EvaluationSetup,
  MachineFactor,
  ObservedReading,
  ResultDeclaration,
  WeighedPair,
} from '../procedure/declaration.ts'
import { readingAt, resultOf, type Formula } from '../procedure/evaluation.ts'
import { decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'

/** The words and keys of a method whose result is a difference of two weighings, by itself and per area. */
export type WeighedDifference = {
  readonly pair: WeighedPair
  /** Key and name of the difference in g: loss, gain. */
  readonly difference: { readonly key: string; readonly label: string; readonly displayDecimals: number }
  readonly perArea: { readonly key: string; readonly label: string }
  /** Where the formula stands. */
  readonly source: string
  /** The sentence for a difference that runs the wrong way; `amount` is digits with unit. */
  readonly impossible: (amount: string) => string
  /** The machine's factor, in words. */
  readonly factorWords: string
}

/** The results of such a method, in words. */
export function weighedDifferenceResults({ difference, perArea }: WeighedDifference): readonly ResultDeclaration[] {
  const units = ['g/m²', 'g/ft²'] as const
  return [difference, ...units.map((unit) => ({ ...perArea, unit, displayDecimals: decimalsPerArea(unit) }))]
}

function decimalsPerArea(unit: string): number {
  return unit === 'g/ft²' ? 2 : 1
}

/**
 * The difference in g, and the difference × factor for each unit in which the machine holds a factor; never converted from
 * one unit to the other.
 */
export function weighedDifferenceFormulas(
  method: WeighedDifference,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): readonly Formula[] {
  const { difference, perArea } = method
  const alone = (): ComputedResult => {
    const work = createCalculation()
    weigh(work, method, readings)
    return resultOf(work.calculation(), difference)
  }
  const withFactor = (factor: MachineFactor): ComputedResult => {
    if (decimal(factor.value).lte(0))
      throw new MethodInputError('not-positive', `The ${method.factorWords} must be more than 0: enter it again.`, {
        factor: `${factor.value} ${factor.unit}`,
      })
    const work = createCalculation()
    weigh(work, method, readings)
    const text = { name: `Factor, ${factor.unit} per g`, unit: factor.unit, source: factor.source }
    work.input({ symbol: 'F', ...text }, factor.value, { kind: 'factor', id: factor.id })
    work.product({ symbol: 'R', name: perArea.label, unit: factor.unit, source: method.source }, 'D', 'F')
    return resultOf(work.calculation(), { ...perArea, displayDecimals: decimalsPerArea(factor.unit) })
  }
  return [
    { keys: [difference.key], compute: () => [alone()] },
    {
      keys: [perArea.key],
      compute: () => {
        weigh(createCalculation(), method, readings)
        if (setup.factors.length === 0)
          throw new MethodInputError(
            'missing-setup',
            `The ${method.factorWords} is not on record: enter it with the machine.`,
          )
        return setup.factors.map(withFactor)
      },
    },
  ]
}

/** Writes both weighings and their difference, line `D`. @throws MethodInputError for a difference that cannot be */
export function weigh(
  work: CalculationBuilder,
  method: Pick<WeighedDifference, 'pair' | 'difference' | 'source' | 'impossible'>,
  readings: readonly ObservedReading[],
) {
  const { pair, difference, source } = method
  const take = (symbol: 'W1' | 'W2', place: WeighedPair['before']) => {
    const reading = readingAt(readings, place.step, place.key)
    if (decimal(reading.value).lte(0))
      throw new MethodInputError('not-positive', `${symbol} must be more than 0 ${pair.unit}.`, {
        [symbol]: `${reading.value} ${pair.unit}`,
      })
    const name = symbol === 'W1' ? 'First weighing' : 'Last weighing'
    work.input({ symbol, name, unit: pair.unit, source: 'as weighed' }, reading.value, {
      kind: 'reading',
      id: reading.id,
      key: reading.key,
    })
    return reading.value
  }
  const W1 = take('W1', pair.before)
  const W2 = take('W2', pair.after)
  const text = { symbol: 'D', name: difference.label, unit: pair.unit, source }
  const value = pair.sense === 'loss' ? work.difference(text, 'W1', 'W2') : work.difference(text, 'W2', 'W1')
  if (value.lt(0)) {
    const amount = `${plainDigits(value.abs())} ${pair.unit}`
    const code = pair.sense === 'loss' ? 'gain' : 'loss'
    throw new MethodInputError(code, method.impossible(amount), {
      [code]: amount,
      W1: `${W1} ${pair.unit}`,
      W2: `${W2} ${pair.unit}`,
    })
  }
}
