import { decimal, plainDigits } from '../quantity/decimal.ts'
import { dixonTest } from './dixon.ts'
import { grubbsTest } from './grubbs.ts'
import type { OutlierFinding } from './outlier-finding.ts'
import { checkReplicateRange, rangeFactor } from './replicate-range.ts'
import { replicateSummary, type ReplicateSummary } from './replicate-summary.ts'

/** One result of several of the same material. */
export type Replicate = { readonly id: string; readonly value: string }

/** Limit r: two results of one operator on the same material differ by no more, 19 times in 20 (ASTM E177). */
export type Repeatability = { readonly value: string; readonly unit: string; readonly source: string }

/** Whether the results lie no further apart than the repeatability lets expect of so many. */
export type AcceptableRange = { readonly limit: string; readonly within: boolean }

export type OutlierTest = Omit<OutlierFinding, 'suspect' | 'sentence'> & {
  /** Id of the result that lies furthest out. */
  readonly suspect: string | null
}

export type ReplicateFindings = {
  readonly summary: ReplicateSummary
  /** Null without a repeatability in the unit of the results, for a single result, and for more than ten. */
  readonly acceptable: AcceptableRange | null
  readonly outliers: readonly OutlierTest[]
  /** Why no outlier test was made: fewer than three results, or no more than two different values among them. */
  readonly untested: 'too-few' | 'too-coarse' | null
}

/** Two-sided, since the end is chosen after the results were seen. 5 %: common practice, no source; tables print 1 % as well. */
const significance = 0.05

/** Up to how many results a test or table is for: Dixon's ratios and C670's factors (ASTM E178, ASTM C670). */
const most = { dixon: 30, range: 10 }
/** Of two, neither is further off than the other: by definition. */
const fewest = 3

/**
 * What is said of replicates: their scatter, whether it is more than the method's repeatability lets expect, and whether one
 * lies further out than chance explains. Nothing is left out of any mean by it.
 * @param unit unit of the results
 * @throws MethodInputError `missing-reading` without results, `inconsistent` for what is no number, `not-positive` for a
 *   repeatability of 0 or less
 */
export function replicateFindings(
  replicates: readonly Replicate[],
  unit: string,
  repeatability: Repeatability | null,
): ReplicateFindings {
  const values = replicates.map(({ value }) => value)
  const untested = untestedFor(values)
  return {
    summary: replicateSummary(values),
    acceptable: repeatability?.unit === unit ? acceptableOf(values, repeatability) : null,
    outliers: untested === null ? outliersAmong(replicates, values) : [],
    untested,
  }
}

/** r ÷ f(2) is the standard deviation of one operator, and f(n) times that what n results may span (ASTM C670). */
function acceptableOf(values: readonly string[], { value }: Repeatability): AcceptableRange | null {
  const n = values.length
  if (n < 2 || n > most.range) return null
  const standardDeviation = plainDigits(decimal(value).div(rangeFactor(2, 'exact')))
  const { limit, within } = checkReplicateRange(values, { standardDeviation }, 'exact')
  // Of two results the limit is r itself, to its last digit.
  if (n === 2) return { limit: value, within: decimal(values[0]!).minus(values[1]!).abs().lte(value) }
  return { limit, within }
}

/** Two different values make every ratio its greatest, whatever they are: that is how finely was read, and no outlier. */
function untestedFor(values: readonly string[]): ReplicateFindings['untested'] {
  if (values.length < fewest) return 'too-few'
  return new Set(values.map((value) => plainDigits(decimal(value)))).size < fewest ? 'too-coarse' : null
}

function outliersAmong(replicates: readonly Replicate[], values: readonly string[]): readonly OutlierTest[] {
  const found = [
    grubbsTest(values, 'two-sided', significance),
    ...(values.length <= most.dixon ? [dixonTest(values, 'two-sided', significance)] : []),
  ]
  return found.map(({ test, ratio, sides, n, significance: at, suspect, statistic, critical, exceeds }) => ({
    ...{ test, ratio, sides, n, significance: at, statistic, critical, exceeds },
    suspect: suspect === null ? null : replicates[suspect.index]!.id,
  }))
}
