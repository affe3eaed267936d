import { decimal, plainDigits, type Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { rangeQuantile } from './distributions/normal-range.ts'
import { mean } from './mean.ts'
import { range } from './range.ts'
import { requireWhole } from './special/arguments.ts'
import { doubleDigits, positiveOf, valuesOf } from './values.ts'

/**
 * Which factor a standard deviation is multiplied by to judge the range of n results:
 * - `exact`: the 95 % quantile of the range of n normal values, computed
 * - `printed`: the same to one decimal, as ASTM C670 prints it (from memory, unverified)
 */
export type RangeTable = 'exact' | 'printed'

/**
 * Factor f(n) of ASTM C670 by which the standard deviation of one operator is multiplied: the range of n results of the same
 * material stays below f(n) s 19 times in 20. n from 2 to 10.
 * @throws MethodInputError `inconsistent` for another number of results
 */
export function rangeFactor(n: number, table: RangeTable): string {
  requireWhole(n, 2, 10, 'The number of results')
  const exact = decimal(rangeQuantile(0.95, n))
  return table === 'printed' ? exact.toFixed(1) : doubleDigits(exact)
}

export type ReplicateRangeCheck = {
  readonly n: number
  /** In the unit of the values; in per cent of their mean when judged by a coefficient of variation. */
  readonly range: string
  readonly limit: string
  readonly factor: string
  readonly table: RangeTable
  readonly within: boolean
  readonly sentence: string
}

/**
 * Whether results of the same material scatter no more than the method's repeatability lets expect (ASTM C670). Nothing is
 * left out of the mean by it: results too far apart are a finding, and somebody decides.
 * @throws MethodInputError `missing-reading` with fewer than two results, `inconsistent` with more than ten,
 *   `not-positive` for a repeatability of 0 or less, or in per cent for a mean of 0 or less
 */
export function checkReplicateRange(
  values: readonly (string | Decimal)[],
  repeatability: { readonly standardDeviation: string } | { readonly coefficientOfVariation: string },
  table: RangeTable,
): ReplicateRangeCheck {
  const all = valuesOf(values, 2, 'A range between results needs at least two of them.')
  const factor = rangeFactor(all.length, table)
  const inPercent = 'coefficientOfVariation' in repeatability
  const scatter = inPercent
    ? positiveOf(repeatability.coefficientOfVariation, 'A coefficient of variation')
    : positiveOf(repeatability.standardDeviation, 'A standard deviation')
  const found = inPercent ? range(all).div(positiveMean(all)).times(100) : range(all)
  const limit = scatter.times(factor)
  const within = found.lte(limit)
  const unit = inPercent ? ' % of their mean' : ''
  return {
    n: all.length,
    range: plainDigits(found),
    limit: plainDigits(limit),
    factor,
    table,
    within,
    sentence: `The ${all.length} results ${within ? 'agree' : 'lie too far apart'}: range ${short(found)}${unit}, acceptable ${short(limit)}${unit} (ASTM C670, ${table} factor ${short(decimal(factor))}).`,
  }
}

function positiveMean(values: readonly Decimal[]): Decimal {
  const centre = mean(values)
  if (centre.lte(0))
    throw new MethodInputError('not-positive', 'Scatter in per cent needs results whose mean is greater than 0.')
  return centre
}

/** For the sentence alone; what is compared keeps all digits. */
function short(value: Decimal): string {
  return plainDigits(value.toSignificantDigits(4))
}
