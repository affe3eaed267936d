import { decimal, Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'

/**
 * Greatest less smallest, in the unit of the values.
 * @throws MethodInputError `missing-reading` without values
 */
export function range(values: readonly (string | Decimal)[]): Decimal {
  if (values.length === 0) throw new MethodInputError('missing-reading', 'A range needs at least one value.')
  const all = values.map(decimal)
  return Decimal.max(...all).minus(Decimal.min(...all))
}
