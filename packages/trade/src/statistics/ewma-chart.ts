import { decimal, plainDigits, type Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { positiveOf, valueOf, valuesOf } from './values.ts'

export type EwmaPoint = {
  readonly value: string
  readonly lower: string
  readonly upper: string
  /** On a limit is within. */
  readonly beyond: boolean
}

/**
 * Exponentially weighted moving average z(t) = λ x(t) + (1 − λ) z(t − 1) from the target on, with limits target ± L s
 * √(λ ÷ (2 − λ) × (1 − (1 − λ)^(2t))); `steady` leaves the last factor off (NIST/SEMATECH e-Handbook 6.3.2.4).
 * @throws MethodInputError `missing-reading` without results, `inconsistent` for λ outside 0 to 1 (1 included),
 *   `not-positive` for a standard deviation or width of 0 or less
 */
export function ewmaChart(
  values: readonly (string | Decimal)[],
  settings: {
    readonly target: string
    readonly standardDeviation: string
    readonly weight: string
    /** L, in standard deviations of the average; 3 where nothing else is agreed. */
    readonly width: string
    readonly limits: 'exact' | 'steady'
  },
): readonly EwmaPoint[] {
  const all = valuesOf(values, 1, 'A chart needs at least one result.')
  const target = valueOf(settings.target, 'The target')
  const scatter = positiveOf(settings.standardDeviation, 'The standard deviation')
  const width = positiveOf(settings.width, 'The width of the limits')
  const weight = positiveOf(settings.weight, 'The weight of the last result')
  if (weight.gt(1)) throw new MethodInputError('inconsistent', 'The weight of the last result is 1 at most, like 0.2.')
  const kept = decimal(1).minus(weight)
  const steady = weight.div(decimal(2).minus(weight))
  let average = target
  // (1 − λ)^(2t), carried along.
  let started = decimal(1)
  return all.map((value) => {
    average = weight.times(value).plus(kept.times(average))
    started = started.times(kept.pow(2))
    const factor = settings.limits === 'steady' ? steady : steady.times(decimal(1).minus(started))
    const half = width.times(scatter).times(factor.sqrt())
    return {
      value: plainDigits(average),
      lower: plainDigits(target.minus(half)),
      upper: plainDigits(target.plus(half)),
      beyond: average.minus(target).abs().gt(half),
    }
  })
}
