import { decimal, plainDigits, type Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { betaQuantile } from './distributions/beta.ts'
import { mean } from './mean.ts'
import { requireWhole } from './special/arguments.ts'
import { incompleteBeta } from './special/incomplete-beta.ts'
import { standardDeviation } from './standard-deviation.ts'
import { doubleDigits, valueOf, valuesOf } from './values.ts'

/**
 * How a quality index becomes a percentage (AASHTO R 9; FHWA Technical Advisory T 5080.12):
 * - `exact beta`: the estimator itself, I_x(a, a) with a = n/2 − 1 and x = ½ + Q √n ÷ (2 (n − 1))
 * - `table, next higher`: whole per cent from a table of Q to four decimals, a Q between two rows taking the higher one, as
 *   the FAA's published examples do (Advisory Circular 150/5370-10, item 110)
 */
export type PwlConvention = 'exact beta' | 'table, next higher'

export type PercentWithin = {
  readonly n: number
  readonly convention: PwlConvention
  readonly mean: string
  readonly standardDeviation: string
  /** Quality index and percentage of each limit held; null where none is, or the index where nothing scatters. */
  readonly lower: { readonly qualityIndex: string | null; readonly percent: string } | null
  readonly upper: { readonly qualityIndex: string | null; readonly percent: string } | null
  readonly percentWithin: string
}

/**
 * Share of a lot estimated to lie within limits from n results, PWL = PL + PU − 100. Where all results are the same the lot
 * is taken to lie where they lie, on a limit counting as within (common practice, no source).
 * @throws MethodInputError `missing-reading` with fewer than three results or without a limit, `inconsistent` when the lower
 *   limit lies above the upper or for what is no number
 */
export function percentWithinLimits(
  values: readonly (string | Decimal)[],
  limits: { readonly lower?: string; readonly upper?: string },
  convention: PwlConvention,
): PercentWithin {
  const all = valuesOf(values, 3, 'Per cent within limits needs at least three results.')
  const lower = limits.lower === undefined ? null : valueOf(limits.lower, 'The lower limit')
  const upper = limits.upper === undefined ? null : valueOf(limits.upper, 'The upper limit')
  if (lower === null && upper === null)
    throw new MethodInputError('missing-reading', 'Per cent within limits needs a lower or an upper limit.')
  if (lower !== null && upper !== null && lower.gt(upper))
    throw new MethodInputError('inconsistent', 'The lower limit must not lie above the upper.')
  const centre = mean(all)
  const scatter = standardDeviation(all)
  const side = (distance: Decimal) => {
    if (scatter.isZero()) return { qualityIndex: null, percent: distance.lt(0) ? '0' : '100' }
    const qualityIndex = distance.div(scatter)
    return {
      qualityIndex: plainDigits(qualityIndex),
      percent: percentOf(qualityIndex.toNumber(), all.length, convention),
    }
  }
  const below = lower === null ? null : side(centre.minus(lower))
  const above = upper === null ? null : side(upper.minus(centre))
  const within = decimal(below?.percent ?? '100')
    .plus(above?.percent ?? '100')
    .minus(100)
  return {
    n: all.length,
    convention,
    mean: plainDigits(centre),
    standardDeviation: plainDigits(scatter),
    lower: below,
    upper: above,
    // A scatter far wider than the limits takes more than all from both ends.
    percentWithin: within.lt(0) ? '0' : doubleDigits(within),
  }
}

/**
 * Percentage within one limit for a quality index from n results.
 * n from 3 on, where the beta distribution is defined, by definition of its parameters; the upper end only keeps slips out.
 * @throws MethodInputError `inconsistent` for n below 3 or an index that is no number
 */
export function percentOf(qualityIndex: number, n: number, convention: PwlConvention): string {
  requireWhole(n, 3, 100_000, 'The number of results')
  if (!Number.isFinite(qualityIndex)) throw new MethodInputError('inconsistent', 'A quality index must be a number.')
  if (convention === 'exact beta') return doubleDigits(exactPercent(qualityIndex, n))
  return String(qualityIndex < 0 ? 100 - nextHigher(-qualityIndex, n) : nextHigher(qualityIndex, n))
}

/** The exact share: x runs from 0 to 1 with its middle, one half, at the limit. */
function exactPercent(qualityIndex: number, n: number): number {
  const off = (qualityIndex * Math.sqrt(n)) / (2 * (n - 1))
  const x = Math.min(1, Math.max(0, 0.5 + off))
  return 100 * incompleteBeta(n / 2 - 1, n / 2 - 1, x, 1 - x)
}

/** The first whole per cent from 50 on, by definition the index 0, whose index in the table reaches this one. */
function nextHigher(qualityIndex: number, n: number): number {
  for (let percent = 50; percent < 100; percent += 1) if (qualityIndexOf(percent, n).gte(qualityIndex)) return percent
  return 100
}

/**
 * The index that a whole percentage stands for in a table for n results, to four decimals; 0 at 50 %, by definition.
 * @throws MethodInputError `inconsistent` for a percentage outside 1 to 99 or n below 3
 */
export function qualityIndexOf(percent: number, n: number): Decimal {
  requireWhole(percent, 1, 99, 'A percentage of the table')
  requireWhole(n, 3, 100_000, 'The number of results')
  if (percent === 50) return decimal(0)
  const x = betaQuantile(percent / 100, n / 2 - 1, n / 2 - 1)
  return decimal(((x - 0.5) * 2 * (n - 1)) / Math.sqrt(n)).toDecimalPlaces(4)
}
