import { Decimal } from '../quantity/decimal.ts'
import { valuesOf } from './values.ts'

/**
 * Greatest less smallest, in the unit of the values.
 * @throws MethodInputError `missing-reading` without values, `inconsistent` for what is no number
 */
export function range(values: readonly (string | Decimal)[]): Decimal {
  const all = valuesOf(values, 1, 'A range needs at least one value.')
  return Decimal.max(...all).minus(Decimal.min(...all))
}
