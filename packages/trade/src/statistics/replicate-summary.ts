import { Decimal, plainDigits } from '../quantity/decimal.ts'
import { mean } from './mean.ts'
import { range } from './range.ts'
import { standardDeviation } from './standard-deviation.ts'
import { valuesOf } from './values.ts'

/** Replicates of one content: digits at full precision, in the unit of the values. */
export type ReplicateSummary = {
  readonly n: number
  readonly mean: string
  /** Sample standard deviation; null for a single value, which has none. */
  readonly standardDeviation: string | null
  readonly min: string
  readonly max: string
  readonly range: string
}

/**
 * What is said of replicates beside their mean.
 * @throws MethodInputError `missing-reading` without values, `inconsistent` for what is no number
 */
export function replicateSummary(values: readonly (string | Decimal)[]): ReplicateSummary {
  const all = valuesOf(values, 1, 'A mean needs at least one value.')
  return {
    n: all.length,
    mean: plainDigits(mean(all)),
    standardDeviation: all.length < 2 ? null : plainDigits(standardDeviation(all)),
    min: plainDigits(Decimal.min(...all)),
    max: plainDigits(Decimal.max(...all)),
    range: plainDigits(range(all)),
  }
}
