import { decimal, Decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { mean } from './mean.ts'
import { standardDeviation } from './standard-deviation.ts'
import { medianOf, valuesOf } from './values.ts'

export type RobustSummary = {
  readonly n: number
  readonly mean: string
  readonly standardDeviation: string
  readonly iterations: number
  /** What the scatter started from: the second where more than half of the results are the same. */
  readonly startedFrom: 'median absolute deviation' | 'standard deviation'
}

/**
 * Algorithm A of ISO 13528 (annex C.3; from memory, unverified): from median and 1.483 times the median absolute deviation,
 * results are drawn in to 1.5 s around the mean, s is 1.134 times the standard deviation of these, and so on until neither
 * changes in its twelfth digit. Where more than half of the results are the same it starts from the standard deviation
 * (common practice, no source). No result is left out.
 * @throws MethodInputError `missing-reading` with fewer than three results, `inconsistent` for what is no number
 */
export function algorithmA(values: readonly (string | Decimal)[]): RobustSummary {
  const all = valuesOf(values, 3, 'A robust mean needs at least three results.')
  let centre = medianOf(all)
  const start = medianOf(all.map((value) => value.minus(centre).abs())).times('1.483')
  const startedFrom = start.isZero() ? 'standard deviation' : 'median absolute deviation'
  let scatter = start.isZero() ? standardDeviation(all) : start
  for (let iteration = 1; iteration <= 10_000; iteration += 1) {
    const reach = scatter.times('1.5')
    const [low, high] = [centre.minus(reach), centre.plus(reach)]
    const drawn = all.map((value) => Decimal.min(Decimal.max(value, low), high))
    const next = { centre: mean(drawn), scatter: standardDeviation(drawn).times('1.134') }
    const moved = Decimal.max(next.centre.minus(centre).abs(), next.scatter.minus(scatter).abs())
    centre = next.centre
    scatter = next.scatter
    if (moved.lte(scatter.times('1e-12')))
      return {
        n: all.length,
        mean: plainDigits(centre),
        standardDeviation: plainDigits(scatter),
        iterations: iteration,
        startedFrom,
      }
    // Scatter that shrinks for ever is scatter of results that are the same but for a few.
    if (scatter.lt(decimal(centre.abs().plus(start)).times('1e-30'))) break
  }
  throw new MethodInputError(
    'inconsistent',
    'More than half of these results are the same: there is no robust scatter.',
  )
}
