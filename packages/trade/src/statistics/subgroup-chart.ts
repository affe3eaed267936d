import { plainDigits, type Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { controlChartConstants } from './control-chart-constants.ts'
import type { ControlLimits } from './individuals-chart.ts'
import { mean } from './mean.ts'
import { range } from './range.ts'
import { standardDeviation } from './standard-deviation.ts'
import { doubleDigits, valuesOf } from './values.ts'

export type SubgroupChart = {
  readonly means: readonly string[]
  /** Ranges or standard deviations of the subgroups. */
  readonly spreads: readonly string[]
  readonly sigma: string
  readonly mean: ControlLimits
  readonly spread: ControlLimits
}

/**
 * X-bar chart of subgroups of one size with its chart of ranges or standard deviations, limits at three σ (ASTM E2587).
 * @throws MethodInputError `missing-reading` without subgroups or with fewer than two results in one, `inconsistent` when
 *   their sizes differ
 */
export function subgroupChart(
  subgroups: readonly (readonly (string | Decimal)[])[],
  by: 'range' | 'standard deviation',
): SubgroupChart {
  const groups = subgroups.map((group) => valuesOf(group, 2, 'A subgroup needs at least two results.'))
  const size = groups[0]?.length
  if (size === undefined) throw new MethodInputError('missing-reading', 'A chart of subgroups needs at least one.')
  if (groups.some((group) => group.length !== size))
    throw new MethodInputError('inconsistent', 'The subgroups of one chart must be of one size.')
  const constants = controlChartConstants(size)
  const means = groups.map((group) => mean(group))
  const spreads = groups.map((group) => (by === 'range' ? range(group) : standardDeviation(group)))
  const centre = mean(means)
  const typical = mean(spreads)
  const factors =
    by === 'range' ? [constants.A2, constants.D3, constants.D4] : [constants.A3, constants.B3, constants.B4]
  const [a, low, high] = factors as [number, number, number]
  return {
    means: means.map(plainDigits),
    spreads: spreads.map(plainDigits),
    sigma: doubleDigits(typical.div(by === 'range' ? constants.d2 : constants.c4)),
    mean: {
      centre: plainDigits(centre),
      lower: doubleDigits(centre.minus(typical.times(a))),
      upper: doubleDigits(centre.plus(typical.times(a))),
    },
    spread: {
      centre: plainDigits(typical),
      lower: doubleDigits(typical.times(low)),
      upper: doubleDigits(typical.times(high)),
    },
  }
}
