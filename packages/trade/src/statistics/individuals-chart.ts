import { decimal, plainDigits, type Decimal } from '../quantity/decimal.ts'
import { controlChartConstants, medianRangeOfTwo } from './control-chart-constants.ts'
import { mean } from './mean.ts'
import { doubleDigits, medianOf, valuesOf } from './values.ts'

export type ControlLimits = { readonly centre: string; readonly lower: string; readonly upper: string }

/**
 * How σ is taken from moving ranges, and with which digits of the constants:
 * - `mean`: mean moving range ÷ d2
 * - `mean, printed constants`: d2 = 1.128 and D4 = 3.267 to three decimals, as tables print them
 * - `median`: median moving range ÷ 0.954, which one jump does not widen
 */
export type MovingRangeEstimate = 'mean' | 'mean, printed constants' | 'median'

export type IndividualsChart = {
  readonly movingRanges: readonly string[]
  readonly sigma: string
  readonly individuals: ControlLimits
  readonly movingRange: ControlLimits
}

/**
 * Chart of single results and their moving ranges of two, limits at three σ (ASTM E2587; NIST/SEMATECH e-Handbook 6.3.2.2).
 * @throws MethodInputError `missing-reading` with fewer than two results, `inconsistent` for what is no number
 */
export function individualsChart(
  values: readonly (string | Decimal)[],
  estimate: MovingRangeEstimate,
): IndividualsChart {
  const all = valuesOf(values, 2, 'A chart of single results needs at least two of them.')
  const ranges = all.slice(1).map((value, index) => value.minus(all[index]!).abs())
  const constants = controlChartConstants(2)
  const printed = estimate === 'mean, printed constants'
  const d2 = decimal(constants.d2)
  const d4 = decimal(constants.D4)
  const divisor = estimate === 'median' ? decimal(medianRangeOfTwo) : printed ? d2.toDecimalPlaces(3) : d2
  const typical = estimate === 'median' ? medianOf(ranges) : mean(ranges)
  const sigma = typical.div(divisor)
  const centre = mean(all)
  const rangeCentre = estimate === 'median' ? sigma.times(d2) : typical
  return {
    movingRanges: ranges.map(plainDigits),
    sigma: doubleDigits(sigma),
    individuals: {
      centre: plainDigits(centre),
      lower: doubleDigits(centre.minus(sigma.times(3))),
      upper: doubleDigits(centre.plus(sigma.times(3))),
    },
    movingRange: {
      centre: estimate === 'median' ? doubleDigits(rangeCentre) : plainDigits(rangeCentre),
      lower: '0',
      upper: doubleDigits(rangeCentre.times(printed ? d4.toDecimalPlaces(3) : d4)),
    },
  }
}
