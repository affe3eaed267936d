import type { Decimal } from '../quantity/decimal.ts'
import { valuesOf } from './values.ts'

/**
 * Sum ÷ number, in the unit of the values, at 34 digits.
 * @throws MethodInputError `missing-reading` without values, `inconsistent` for what is no number
 */
export function mean(values: readonly (string | Decimal)[]): Decimal {
  return valuesOf(values, 1, 'A mean needs at least one value.')
    .reduce((sum, value) => sum.plus(value))
    .div(values.length)
}
