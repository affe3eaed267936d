import { decimal, type Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { mean } from './mean.ts'

/**
 * Sample standard deviation (divisor n − 1), in the unit of the values. Two passes, the mean first: the one-pass formula
 * loses the digits that matter when the values are large and alike.
 * @throws MethodInputError `missing-reading` with fewer than two values
 */
export function standardDeviation(values: readonly (string | Decimal)[]): Decimal {
  if (values.length < 2)
    throw new MethodInputError('missing-reading', 'A standard deviation needs at least two values.')
  const centre = mean(values)
  const squares = values.map((value) => decimal(value).minus(centre).pow(2)).reduce((sum, square) => sum.plus(square))
  return squares.div(values.length - 1).sqrt()
}
