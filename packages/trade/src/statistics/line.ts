import { Decimal, decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { mean } from './mean.ts'
import { valueOf, valuesOf } from './values.ts'

export type Point = { readonly x: string; readonly y: string }

/** A straight line through results, with what is needed to say how well it is known. Digits at full precision. */
export type Line = {
  readonly n: number
  readonly degreesOfFreedom: number
  /** Null for a line through the origin. */
  readonly intercept: { readonly value: string; readonly standardError: string } | null
  readonly slope: { readonly value: string; readonly standardError: string }
  readonly residualStandardDeviation: string
  /** About the mean with an intercept, about 0 through the origin; null when y does not vary. */
  readonly rSquared: string | null
  /** Span of x that the line is known over: nothing is said outside it. */
  readonly from: string
  readonly to: string
  readonly meanX: string
  readonly meanY: string
  /** Σ(x − mean)², through the origin Σx². */
  readonly sumOfSquaresX: string
}

/**
 * Ordinary least squares of y on x, x taken as known, from deviations about the means, at 34 digits (N. R. Draper and
 * H. Smith, Applied Regression Analysis, 3rd ed. 1998, chapter 1).
 * @throws MethodInputError `missing-reading` with fewer than three points (two through the origin), `inconsistent` for what
 *   is no number or when all x are the same
 */
export function fitLine(points: readonly Point[], options: { readonly throughOrigin?: boolean } = {}): Line {
  const origin = options.throughOrigin === true
  const least = origin ? 2 : 3
  const xs = valuesOf(
    points.map(({ x }) => x),
    least,
    `A line${origin ? ' through the origin' : ''} needs at least ${least} points.`,
  )
  const ys = valuesOf(
    points.map(({ y }) => y),
    least,
    'A line needs points.',
  )
  const meanX = mean(xs)
  const meanY = mean(ys)
  const [aboutX, aboutY] = origin ? [decimal(0), decimal(0)] : [meanX, meanY]
  const across = xs.map((x) => x.minus(aboutX))
  const up = ys.map((y) => y.minus(aboutY))
  const sxx = sumOf(across.map((x) => x.pow(2)))
  if (sxx.isZero()) throw new MethodInputError('inconsistent', 'A line needs points at two different x at least.')
  const syy = sumOf(up.map((y) => y.pow(2)))
  const slope = sumOf(across.map((x, index) => x.times(up[index]!))).div(sxx)
  const rest = sumOf(up.map((y, index) => y.minus(slope.times(across[index]!)).pow(2)))
  const degreesOfFreedom = xs.length - least + 1
  const variance = rest.div(degreesOfFreedom)
  // Of the intercept s² (1/n + mean² ÷ Sxx), of the slope s² ÷ Sxx.
  const atOrigin = decimal(1).div(xs.length).plus(meanX.pow(2).div(sxx))
  return {
    n: xs.length,
    degreesOfFreedom,
    intercept: origin ? null : known(meanY.minus(slope.times(meanX)), variance.times(atOrigin)),
    slope: known(slope, variance.div(sxx)),
    residualStandardDeviation: plainDigits(variance.sqrt()),
    rSquared: syy.isZero() ? null : plainDigits(decimal(1).minus(rest.div(syy))),
    from: plainDigits(Decimal.min(...xs)),
    to: plainDigits(Decimal.max(...xs)),
    meanX: plainDigits(meanX),
    meanY: plainDigits(meanY),
    sumOfSquaresX: plainDigits(sxx),
  }
}

function known(value: Decimal, variance: Decimal) {
  return { value: plainDigits(value), standardError: plainDigits(variance.sqrt()) }
}

function sumOf(values: readonly Decimal[]): Decimal {
  return values.reduce((sum, value) => sum.plus(value))
}

/**
 * y of the line at x, within the span of its points: there is no extrapolation.
 * @throws MethodInputError `inconsistent` outside the span
 */
export function lineAt(line: Line, x: string): Decimal {
  const at = valueOf(x, 'x')
  requireWithin(line, at)
  return decimal(line.slope.value)
    .times(at)
    .plus(line.intercept?.value ?? 0)
}

/** @throws MethodInputError `inconsistent` for an x outside the span of the line's points */
export function requireWithin(line: Pick<Line, 'from' | 'to'>, x: Decimal): void {
  if (x.lt(line.from) || x.gt(line.to))
    throw new MethodInputError(
      'inconsistent',
      `${plainDigits(x.toSignificantDigits(6))} lies outside the points of the line, ${line.from} to ${line.to}: it says nothing there.`,
    )
}
