import type { Decimal } from '../quantity/decimal.ts'
import { decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'

// No balance, gauge or clock shows more; beyond it plain digits grow without end.
const largestExponent = 100

/**
 * Digits as numbers, checked before anything is computed of them.
 * @throws MethodInputError `missing-reading` with fewer values than the formula needs, `inconsistent` for what is no number
 */
export function valuesOf(values: readonly (string | Decimal)[], atLeast: number, tooFew: string): readonly Decimal[] {
  if (values.length < atLeast) throw new MethodInputError('missing-reading', tooFew)
  return values.map((value) => valueOf(value))
}

/** @throws MethodInputError `inconsistent` for what is no number in digits, or none that an instrument can show */
export function valueOf(value: string | Decimal, label = 'A value'): Decimal {
  if (typeof value === 'string' && !/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,4})?$/i.test(value))
    throw new MethodInputError('inconsistent', `${label} must be a number in digits, like 812.4.`)
  const number = decimal(value)
  if (!number.isFinite() || Math.abs(number.e) > largestExponent)
    throw new MethodInputError('inconsistent', `${label} must be a number that an instrument can show, like 812.4.`)
  return number
}

/** @throws MethodInputError `not-positive` for a number of 0 or less, `inconsistent` for what is no number */
export function positiveOf(value: string | Decimal, label: string): Decimal {
  const number = valueOf(value, label)
  if (number.lte(0)) throw new MethodInputError('not-positive', `${label} must be greater than 0.`)
  return number
}

/** The shortest digits that stand for the double: what was computed in doubles has no more. */
export function doubleDigits(value: number | Decimal): string {
  return plainDigits(decimal(Number(value)))
}

/** 0.05 → "5 %" */
export function percentWords(share: number): string {
  return `${plainDigits(decimal(share).times(100))} %`
}

/** The value in the middle; the mean of the two in the middle of an even number. */
export function medianOf(values: readonly Decimal[]): Decimal {
  const sorted = [...values].sort((a, b) => a.cmp(b))
  const middle = sorted.slice(Math.floor((sorted.length - 1) / 2), Math.floor(sorted.length / 2) + 1)
  return middle.reduce((sum, value) => sum.plus(value)).div(middle.length)
}
