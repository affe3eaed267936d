import { plainDigits, type Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { mean } from './mean.ts'
import { standardDeviation } from './standard-deviation.ts'
import { valuesOf } from './values.ts'

/**
 * Standard deviation in per cent of the mean (ASTM E177), at 34 digits. It says something of values above 0 only.
 * @throws MethodInputError `missing-reading` with fewer than two values, `not-positive` when the mean is 0 or less
 */
export function coefficientOfVariation(values: readonly (string | Decimal)[]): string {
  const all = valuesOf(values, 2, 'A coefficient of variation needs at least two values.')
  const centre = mean(all)
  if (centre.lte(0))
    throw new MethodInputError('not-positive', 'Scatter in per cent needs results whose mean is greater than 0.')
  return plainDigits(standardDeviation(all).div(centre).times(100))
}
