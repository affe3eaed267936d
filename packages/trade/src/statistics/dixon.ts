import { plainDigits, type Decimal } from '../quantity/decimal.ts'
import { dixonCritical, type DixonRatio, dixonRatioOf, dixonRatios } from './dixon-critical.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { type OutlierFinding, outlierSentence, type OutlierSides } from './outlier-finding.ts'
import { doubleDigits, valuesOf } from './values.ts'

/**
 * Dixon's test for one outlier among 3 to 30 results (ASTM E178): the gap of the suspect from its neighbours over the range,
 * with the ratio that goes with n. Two-sided it names the end with the wider gap, of two equal ones the high.
 * @throws MethodInputError `missing-reading` with fewer than three results, `inconsistent` with more than thirty or for a
 *   significance outside 0 to 1
 */
export function dixonTest(
  values: readonly (string | Decimal)[],
  sides: OutlierSides,
  significance: number,
): OutlierFinding {
  const all = valuesOf(values, 3, 'A Dixon test needs at least three results.')
  if (all.length > 30) throw new MethodInputError('inconsistent', 'A Dixon test is for 30 results at most.')
  const n = all.length
  const ratio = dixonRatioOf(n)
  const critical = dixonCritical(n, significance, sides === 'two-sided' ? sides : 'one-sided', ratio)
  const ranked = all.map((value, index) => ({ value, index })).sort((a, b) => a.value.cmp(b.value))
  const ends = [
    ...(sides === 'low'
      ? []
      : [{ at: ranked[n - 1]!, statistic: ratioOf(ranked.map(({ value }) => value).reverse(), ratio) }]),
    ...(sides === 'high'
      ? []
      : [
          {
            at: ranked[0]!,
            statistic: ratioOf(
              ranked.map(({ value }) => value),
              ratio,
            ),
          },
        ]),
  ]
  const end = ends.reduce((most, each) => (each.statistic.gt(most.statistic) ? each : most))
  const same = ranked[0]!.value.eq(ranked[n - 1]!.value)
  const given = values[end.at.index] ?? ''
  const found = {
    test: 'Dixon' as const,
    ratio,
    sides,
    n,
    significance,
    suspect: same ? null : { index: end.at.index, value: typeof given === 'string' ? given : plainDigits(given) },
    statistic: plainDigits(end.statistic),
    critical: doubleDigits(critical),
    exceeds: end.statistic.gt(critical),
  }
  return { ...found, sentence: outlierSentence(found) }
}

/** The ratio of the first value, of values in order from its end; 0 where the values that make the range are the same. */
function ratioOf(fromEnd: readonly Decimal[], ratio: DixonRatio): Decimal {
  const { above, from } = dixonRatios[ratio]
  const suspect = fromEnd[0]!
  const gap = suspect.minus(fromEnd[above]!).abs()
  const width = suspect.minus(fromEnd[fromEnd.length - from]!).abs()
  return width.isZero() ? width : gap.div(width)
}
