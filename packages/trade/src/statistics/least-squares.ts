import type { Decimal } from '../quantity/decimal.ts'
import { decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { valueOf, valuesOf } from './values.ts'

export type LeastSquares = {
  readonly n: number
  readonly degreesOfFreedom: number
  /** In the order of the columns; the constant, if asked for, first. */
  readonly coefficients: readonly { readonly value: string; readonly standardError: string }[]
  /** Standard deviation of the residuals, in the unit of y. */
  readonly residualStandardDeviation: string
  /**
   * Share of the variation explained: about the mean with a constant, about 0 without one (as NIST certifies it). Null when
   * y does not vary.
   */
  readonly rSquared: string | null
  readonly residuals: readonly string[]
}

/**
 * Linear least squares by orthogonal columns (modified Gram–Schmidt on columns and y together: Å. Björck, BIT 7, 1967), at
 * 34 digits, never by normal equations.
 * @throws MethodInputError `missing-reading` with no more rows than coefficients, `inconsistent` when a row has another number
 *   of values, a value is no number, or one column follows from the others
 */
export function leastSquares(
  rows: readonly (readonly (string | Decimal)[])[],
  y: readonly (string | Decimal)[],
  { constant }: { readonly constant: boolean },
): LeastSquares {
  const width = rows[0]?.length ?? 0
  if (rows.length !== y.length || rows.some((row) => row.length !== width))
    throw new MethodInputError('inconsistent', 'Each result of a regression needs the same number of values beside it.')
  const observed = valuesOf(y, 1, 'A regression needs results.')
  const numbers = rows.map((row) => [...(constant ? [decimal(1)] : []), ...row.map((value) => valueOf(value))])
  const terms = width + (constant ? 1 : 0)
  if (terms === 0) throw new MethodInputError('missing-reading', 'A regression needs values to regress on.')
  if (observed.length <= terms)
    throw new MethodInputError(
      'missing-reading',
      `A regression of ${terms} coefficients needs at least ${terms + 1} results.`,
    )
  const columns = Array.from({ length: terms }, (_, column) => numbers.map((row) => row[column]!))
  const { triangle, along, residuals } = orthogonal(columns, observed)
  const coefficients = backSubstitute(triangle, along)
  const degreesOfFreedom = observed.length - terms
  const rest = dot(residuals, residuals)
  const variance = rest.div(degreesOfFreedom)
  const total = variation(observed, constant)
  return {
    n: observed.length,
    degreesOfFreedom,
    coefficients: coefficients.map((value, index) => ({
      value: plainDigits(value),
      standardError: plainDigits(variance.times(inverseSquares(triangle, index)).sqrt()),
    })),
    residualStandardDeviation: plainDigits(variance.sqrt()),
    rSquared: total.isZero() ? null : plainDigits(decimal(1).minus(rest.div(total))),
    residuals: residuals.map(plainDigits),
  }
}

function dot(a: readonly Decimal[], b: readonly Decimal[]): Decimal {
  return a.reduce((sum, value, index) => sum.plus(value.times(b[index]!)), decimal(0))
}

/** a less q times b, element by element */
function less(a: readonly Decimal[], b: readonly Decimal[], q: Decimal): Decimal[] {
  return a.map((value, index) => value.minus(q.times(b[index]!)))
}

function orthogonal(columns: readonly (readonly Decimal[])[], y: readonly Decimal[]) {
  const terms = columns.length
  const left = columns.map((column) => [...column])
  const triangle = Array.from({ length: terms }, () => Array.from({ length: terms }, () => decimal(0)))
  const along: Decimal[] = []
  let residuals = [...y]
  for (let j = 0; j < terms; j += 1) {
    const norm = dot(left[j]!, left[j]!).sqrt()
    const before = dot(columns[j]!, columns[j]!).sqrt()
    // Nothing but rounding at 34 digits (IEEE 754) is left of a column that follows from the others.
    if (norm.lte(before.times('1e-28')))
      throw new MethodInputError(
        'inconsistent',
        'One value of the regression follows from the others: it cannot be told apart.',
      )
    triangle[j]![j] = norm
    const direction = left[j]!.map((value) => value.div(norm))
    for (let k = j + 1; k < terms; k += 1) {
      const share = dot(direction, left[k]!)
      triangle[j]![k] = share
      left[k] = less(left[k]!, direction, share)
    }
    const share = dot(direction, residuals)
    along.push(share)
    residuals = less(residuals, direction, share)
  }
  return { triangle, along, residuals }
}

function backSubstitute(triangle: readonly (readonly Decimal[])[], along: readonly Decimal[]): readonly Decimal[] {
  const solution = along.map(() => decimal(0))
  for (let j = along.length - 1; j >= 0; j -= 1) {
    const known = solution.reduce(
      (sum, value, k) => (k > j ? sum.plus(triangle[j]![k]!.times(value)) : sum),
      decimal(0),
    )
    solution[j] = along[j]!.minus(known).div(triangle[j]![j]!)
  }
  return solution
}

/** Diagonal of (RᵀR)⁻¹: the squares of one row of R⁻¹, summed. */
function inverseSquares(triangle: readonly (readonly Decimal[])[], row: number): Decimal {
  return triangle
    .map((_, column) => {
      const unit = triangle.map((_, index) => decimal(index === column ? 1 : 0))
      return backSubstitute(triangle, unit)[row]!
    })
    .reduce((sum, value) => sum.plus(value.pow(2)), decimal(0))
}

function variation(y: readonly Decimal[], aboutMean: boolean): Decimal {
  const centre = aboutMean ? y.reduce((sum, value) => sum.plus(value)).div(y.length) : decimal(0)
  return y.reduce((sum, value) => sum.plus(value.minus(centre).pow(2)), decimal(0))
}
