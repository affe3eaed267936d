import { Decimal, decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { fUpperQuantile } from './distributions/fisher-f.ts'
import { tUpperQuantile } from './distributions/student-t.ts'
import { mean } from './mean.ts'
import { requireWhole } from './special/arguments.ts'
import { standardDeviation } from './standard-deviation.ts'
import { doubleDigits, valuesOf } from './values.ts'

export type LaboratoryConsistency = {
  readonly mean: string
  readonly standardDeviation: string
  /** Between laboratories, h = (mean − mean of means) ÷ s of the means; null when all means are the same. */
  readonly h: string | null
  /** Within, k = s ÷ repeatability standard deviation; null when nothing scatters. */
  readonly k: string | null
  /** Beyond the critical value at 0.5 %: a finding, the results stay. */
  readonly hExceeds: boolean
  readonly kExceeds: boolean
}

export type InterlaboratoryStudy = {
  readonly laboratories: number
  readonly replicates: number
  readonly mean: string
  readonly standardDeviationOfMeans: string
  readonly repeatability: { readonly standardDeviation: string; readonly limit: string }
  readonly reproducibility: { readonly standardDeviation: string; readonly limit: string }
  readonly criticalH: string
  readonly criticalK: string
  readonly each: readonly LaboratoryConsistency[]
}

/**
 * Precision of one material from p laboratories with n results each (ASTM E691; limits 2.8 s as in ASTM E177; from memory,
 * unverified): sr = √mean(s²), sR = √(s² of the means + sr² (n − 1) ÷ n), at least sr.
 * @throws MethodInputError `missing-reading` with fewer than three laboratories or two results each, `inconsistent` when they
 *   have not all as many results
 */
export function interlaboratoryStudy(cells: readonly (readonly (string | Decimal)[])[]): InterlaboratoryStudy {
  const laboratories = cells.length
  if (laboratories < 3)
    throw new MethodInputError('missing-reading', 'Precision between laboratories needs at least three of them.')
  const all = cells.map((cell) => valuesOf(cell, 2, 'Each laboratory of a study needs at least two results.'))
  const replicates = all[0]!.length
  if (all.some((cell) => cell.length !== replicates))
    throw new MethodInputError('inconsistent', 'The laboratories of a study must have the same number of results each.')
  const means = all.map((cell) => mean(cell))
  const scatters = all.map((cell) => standardDeviation(cell))
  const centre = mean(means)
  const ofMeans = standardDeviation(means)
  const within = mean(scatters.map((scatter) => scatter.pow(2)))
  const sr = within.sqrt()
  const both = ofMeans.pow(2).plus(within.times(replicates - 1).div(replicates))
  const sR = Decimal.max(sr, both.sqrt())
  const criticalH = criticalHOf(laboratories)
  const criticalK = criticalKOf(laboratories, replicates)
  return {
    laboratories,
    replicates,
    mean: plainDigits(centre),
    standardDeviationOfMeans: plainDigits(ofMeans),
    repeatability: { standardDeviation: plainDigits(sr), limit: plainDigits(sr.times('2.8')) },
    reproducibility: { standardDeviation: plainDigits(sR), limit: plainDigits(sR.times('2.8')) },
    criticalH: doubleDigits(criticalH),
    criticalK: doubleDigits(criticalK),
    each: means.map((own, index) => {
      const h = ofMeans.isZero() ? null : own.minus(centre).div(ofMeans)
      const k = sr.isZero() ? null : scatters[index]!.div(sr)
      return {
        mean: plainDigits(own),
        standardDeviation: plainDigits(scatters[index]!),
        h: h === null ? null : plainDigits(h),
        k: k === null ? null : plainDigits(k),
        hExceeds: h?.abs().gt(criticalH) ?? false,
        kExceeds: k?.gt(decimal(criticalK)) ?? false,
      }
    }),
  }
}

/**
 * Critical h at 0.5 %: (p − 1) t ÷ √(p (t² + p − 2)), t two-sided with p − 2 degrees of freedom (ASTM E691; from memory,
 * unverified).
 * @throws MethodInputError `inconsistent` for fewer than three laboratories
 */
export function criticalHOf(laboratories: number): number {
  requireWhole(laboratories, 3, 10_000, 'The number of laboratories')
  const t = tUpperQuantile(0.0025, laboratories - 2)
  return ((laboratories - 1) * t) / Math.sqrt(laboratories * (t * t + laboratories - 2))
}

/**
 * Critical k at 0.5 %: √(p ÷ (1 + (p − 1) ÷ F)), F with n − 1 and (n − 1)(p − 1) degrees of freedom (ASTM E691; from memory,
 * unverified).
 * @throws MethodInputError `inconsistent` for fewer than three laboratories or two results each
 */
export function criticalKOf(laboratories: number, replicates: number): number {
  requireWhole(laboratories, 3, 10_000, 'The number of laboratories')
  requireWhole(replicates, 2, 10_000, 'The number of results of each laboratory')
  const f = fUpperQuantile(0.005, replicates - 1, (replicates - 1) * (laboratories - 1))
  return Math.sqrt(laboratories / (1 + (laboratories - 1) / f))
}
