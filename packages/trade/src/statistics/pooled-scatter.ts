import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { mean } from './mean.ts'
import { valueOf } from './values.ts'

/**
 * How scatter that grows with the value is made comparable over contents:
 * - `log`: the standard deviation of ln(y), which is a coefficient of variation for small scatter
 * - `relative`: the standard deviation of y ÷ mean
 */
export type ScatterScale = 'log' | 'relative'

export type PooledScatter = {
  /** As a fraction: 0.095 is 9.5 %. */
  readonly value: string
  /** Sum of n − 1 over the groups. */
  readonly degreesOfFreedom: number
}

/**
 * Scatter between replicates, pooled over contents: √(Σ(deviations²) ÷ Σ(n − 1)). Two or three replicates alone say too
 * little of it. Groups of one value add nothing.
 * @throws MethodInputError `missing-reading` when no group has two values, `not-positive` for a value of 0 or less,
 *   `inconsistent` for what is no number
 */
export function pooledScatter(groups: readonly (readonly (string | Decimal)[])[], scale: ScatterScale): PooledScatter {
  const usable = groups.filter((group) => group.length > 1)
  if (usable.length === 0)
    throw new MethodInputError('missing-reading', 'Scatter needs at least one content with two results.')
  const squares = usable
    .flatMap((group) => deviations(group, scale))
    .reduce((sum, deviation) => sum.plus(deviation.pow(2)), decimal('0'))
  const degreesOfFreedom = usable.reduce((sum, group) => sum + group.length - 1, 0)
  return { value: plainDigits(squares.div(degreesOfFreedom).sqrt()), degreesOfFreedom }
}

function deviations(group: readonly (string | Decimal)[], scale: ScatterScale): readonly Decimal[] {
  const values = group.map((value) => valueOf(value))
  if (values.some((value) => value.lte(0)))
    throw new MethodInputError('not-positive', 'Scatter in per cent needs results that are greater than 0.')
  const centre = mean(values)
  const scaled = scale === 'log' ? values.map((value) => value.ln()) : values.map((value) => value.div(centre))
  const middle = mean(scaled)
  return scaled.map((value) => value.minus(middle))
}
