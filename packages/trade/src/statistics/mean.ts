import { decimal, type Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'

/**
 * Sum ÷ number, in the unit of the values, at 34 digits.
 * @throws MethodInputError `missing-reading` without values
 */
export function mean(values: readonly (string | Decimal)[]): Decimal {
  if (values.length === 0) throw new MethodInputError('missing-reading', 'A mean needs at least one value.')
  return values
    .map(decimal)
    .reduce((sum, value) => sum.plus(value))
    .div(values.length)
}
