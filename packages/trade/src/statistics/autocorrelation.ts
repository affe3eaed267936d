import { plainDigits, type Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { mean } from './mean.ts'
import { valuesOf } from './values.ts'

/**
 * Lag-1 autocorrelation, results in the order in which they came: Σ(x(t) − mean)(x(t + 1) − mean) ÷ Σ(x(t) − mean)² (NIST
 * Statistical Reference Datasets). Control charts take it to be near 0.
 * @throws MethodInputError `missing-reading` with fewer than three results, `inconsistent` when all are the same
 */
export function autocorrelation(values: readonly (string | Decimal)[]): string {
  const all = valuesOf(values, 3, 'An autocorrelation needs at least three results.')
  const centre = mean(all)
  const deviations = all.map((value) => value.minus(centre))
  const squares = deviations.map((deviation) => deviation.pow(2)).reduce((sum, square) => sum.plus(square))
  if (squares.isZero())
    throw new MethodInputError('inconsistent', 'Results that are all the same do not go together or apart.')
  const products = deviations.slice(1).map((deviation, index) => deviation.times(deviations[index]!))
  return plainDigits(products.reduce((sum, product) => sum.plus(product)).div(squares))
}
