import { plainDigits, type Decimal } from '../quantity/decimal.ts'
import { tUpperQuantile, tUpperTail } from './distributions/student-t.ts'
import { mean } from './mean.ts'
import { type OutlierFinding, outlierSentence, type OutlierSides } from './outlier-finding.ts'
import { requireProbability, requireWhole } from './special/arguments.ts'
import { standardDeviation } from './standard-deviation.ts'
import { doubleDigits, valuesOf } from './values.ts'

/**
 * Critical value of Grubbs' test (ASTM E178): (n − 1) ÷ √n × √(t² ÷ (n − 2 + t²)) with t of n − 2 degrees of freedom at α ÷ n
 * one-sided, α ÷ 2n two-sided (F. E. Grubbs, Technometrics 11, 1969; NIST/SEMATECH e-Handbook 1.3.5.17).
 * @throws MethodInputError `inconsistent` for n that is no whole number from 3 on, or a significance outside 0 to 1
 */
export function grubbsCritical(n: number, significance: number, sides: 'one-sided' | 'two-sided'): number {
  requireWhole(n, 3, 100_000, 'The number of results of a Grubbs test')
  requireProbability(significance, 'A significance')
  const t = tUpperQuantile(significance / (sides === 'two-sided' ? 2 * n : n), n - 2)
  return ((n - 1) / Math.sqrt(n)) * Math.sqrt((t * t) / (n - 2 + t * t))
}

/**
 * Grubbs' test for one outlier: the distance of the furthest result from the mean, in standard deviations. Of two results
 * equally far out the two-sided test names the high one.
 * @throws MethodInputError `missing-reading` with fewer than three results, `inconsistent` for a significance outside 0 to 1
 */
export function grubbsTest(
  values: readonly (string | Decimal)[],
  sides: OutlierSides,
  significance: number,
): OutlierFinding & { readonly probability: string } {
  // Of two, neither is farther off than the other, by definition.
  const all = valuesOf(values, 3, 'A Grubbs test needs at least three results.')
  const n = all.length
  const critical = grubbsCritical(n, significance, sides === 'two-sided' ? sides : 'one-sided')
  const scatter = standardDeviation(all)
  const centre = mean(all)
  const distances = all.map((value) => {
    const above = value.minus(centre)
    return sides === 'high' ? above : sides === 'low' ? above.neg() : above.abs()
  })
  const furthest = distances.reduce((most, distance) => (distance.gt(most) ? distance : most))
  const index = distances.findIndex(
    (distance, at) => distance.eq(furthest) && !(sides === 'two-sided' && higherTwin(all, distances, at)),
  )
  const statistic = scatter.isZero() ? scatter : furthest.div(scatter)
  const found = {
    test: 'Grubbs' as const,
    ratio: 'T',
    sides,
    n,
    significance,
    suspect: scatter.isZero() ? null : { index, value: digitsAt(values, index) },
    statistic: plainDigits(statistic),
    critical: doubleDigits(critical),
    exceeds: statistic.gt(critical),
  }
  return { ...found, probability: doubleDigits(probability(statistic, n, sides)), sentence: outlierSentence(found) }
}

function higherTwin(values: readonly Decimal[], distances: readonly Decimal[], at: number): boolean {
  return values.some((value, other) => distances[other]!.eq(distances[at]!) && value.gt(values[at]!))
}

/** Chance of a result so far out: exact while two such results cannot be, otherwise an upper bound. */
function probability(statistic: Decimal, n: number, sides: OutlierSides): number {
  const room = statistic
    .pow(2)
    .times(n)
    .neg()
    .plus((n - 1) ** 2)
  const t = room.lte(0)
    ? Infinity
    : Math.sqrt(
        statistic
          .pow(2)
          .times(n)
          .times(n - 2)
          .div(room)
          .toNumber(),
      )
  return Math.min(1, tUpperTail(t, n - 2) * (sides === 'two-sided' ? 2 * n : n))
}

function digitsAt(values: readonly (string | Decimal)[], index: number): string {
  const value = values[index] ?? ''
  return typeof value === 'string' ? value : plainDigits(value)
}
