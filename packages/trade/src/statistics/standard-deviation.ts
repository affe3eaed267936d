import type { Decimal } from '../quantity/decimal.ts'
import { mean } from './mean.ts'
import { valuesOf } from './values.ts'

/**
 * Sample standard deviation (divisor n − 1), in the unit of the values. Two passes, the mean first: the one-pass formula
 * loses the digits that matter when the values are large and alike.
 * @throws MethodInputError `missing-reading` with fewer than two values, `inconsistent` for what is no number
 */
export function standardDeviation(values: readonly (string | Decimal)[]): Decimal {
  const all = valuesOf(values, 2, 'A standard deviation needs at least two values.')
  const centre = mean(all)
  const squares = all.map((value) => value.minus(centre).pow(2)).reduce((sum, square) => sum.plus(square))
  return squares.div(all.length - 1).sqrt()
}
