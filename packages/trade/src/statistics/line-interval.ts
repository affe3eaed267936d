import { decimal, plainDigits, type Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { tUpperQuantile } from './distributions/student-t.ts'
import { mean } from './mean.ts'
import { type Line, lineAt, requireWithin } from './line.ts'
import { requireProbability, requireWhole } from './special/arguments.ts'
import { doubleDigits, valuesOf } from './values.ts'

export type Interval = {
  readonly value: string
  readonly standardError: string
  readonly degreesOfFreedom: number
  readonly level: number
  readonly from: string
  readonly to: string
}

/**
 * Where the mean of y at x lies: ŷ ± t s √(1/n + (x − mean)² ÷ Sxx) (Draper and Smith 1998, section 3.1; through the origin
 * ŷ ± t s √(x² ÷ Σx²)).
 * @throws MethodInputError `inconsistent` for an x outside the line's points or a level outside 0 to 1
 */
export function meanInterval(line: Line, x: string, level: number): Interval {
  return interval(line, lineAt(line, x), leverage(line, decimal(x)), level)
}

/**
 * Where the mean of `readings` further results at x will lie: ŷ ± t s √(1/m + 1/n + (x − mean)² ÷ Sxx).
 * @throws MethodInputError `inconsistent` for an x outside the line's points, a level outside 0 to 1, or readings below 1
 */
export function predictionInterval(line: Line, x: string, level: number, readings = 1): Interval {
  // The upper end only keeps slips out: common practice, no source.
  requireWhole(readings, 1, 1_000_000, 'The number of readings')
  const value = lineAt(line, x)
  return interval(line, value, leverage(line, decimal(x)).plus(decimal(1).div(readings)), level)
}

/**
 * Calibration: the x that gave these readings of y, with its standard error s ÷ |slope| × √(1/m + 1/n + (y − mean)² ÷
 * (slope² Sxx)) (J. N. Miller and J. C. Miller, Statistics and Chemometrics for Analytical Chemistry, section 5.6; from memory,
 * unverified). It is an approximation, good while the slope is known to a tenth or better.
 * @throws MethodInputError `missing-reading` without readings, `inconsistent` when the line is level or the x found lies
 *   outside its points
 */
export function calibratedX(line: Line, readings: readonly string[], level: number): Interval {
  const given = valuesOf(readings, 1, 'A calibration is read with at least one reading.')
  const slope = decimal(line.slope.value)
  if (slope.isZero()) throw new MethodInputError('inconsistent', 'A level line cannot be read backwards.')
  const x = mean(given)
    .minus(line.intercept?.value ?? 0)
    .div(slope)
  requireWithin(line, x)
  const spread = leverage(line, x).plus(decimal(1).div(given.length))
  const found = interval(line, x, spread.div(slope.pow(2)), level)
  return found
}

/** 1/n + (x − mean)² ÷ Sxx; through the origin x² ÷ Σx². */
function leverage(line: Line, x: Decimal): Decimal {
  if (line.intercept === null) return x.pow(2).div(line.sumOfSquaresX)
  return x.minus(line.meanX).pow(2).div(line.sumOfSquaresX).plus(decimal(1).div(line.n))
}

function interval(line: Line, value: Decimal, spread: Decimal, level: number): Interval {
  requireProbability(level, 'A level of confidence')
  const standardError = spread.sqrt().times(line.residualStandardDeviation)
  const half = standardError.times(tUpperQuantile((1 - level) / 2, line.degreesOfFreedom))
  return {
    value: plainDigits(value),
    standardError: plainDigits(standardError),
    degreesOfFreedom: line.degreesOfFreedom,
    level,
    from: doubleDigits(value.minus(half)),
    to: doubleDigits(value.plus(half)),
  }
}
