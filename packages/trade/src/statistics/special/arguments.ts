import { MethodInputError } from '../../quantity/method-input-error.ts'

/** @throws MethodInputError `not-positive` unless the number is finite and greater than 0 */
export function requirePositive(value: number, what: string): void {
  if (!(Number.isFinite(value) && value > 0))
    throw new MethodInputError('not-positive', `${what} must be a number greater than 0.`)
}

/** @throws MethodInputError `inconsistent` unless the number lies between 0 and 1, ends excluded */
export function requireProbability(value: number, what = 'A probability'): void {
  if (!(value > 0 && value < 1))
    throw new MethodInputError('inconsistent', `${what} must lie between 0 and 1, like 0.05.`)
}

/** @throws MethodInputError `inconsistent` unless the number is whole and lies within the bounds, ends included */
export function requireWhole(value: number, from: number, to: number, what: string): void {
  if (!(Number.isInteger(value) && value >= from && value <= to))
    throw new MethodInputError('inconsistent', `${what} must be a whole number from ${from} to ${to}.`)
}

/** @throws MethodInputError `inconsistent` for what is no number */
export function requireNumber(value: number, what: string): void {
  if (Number.isNaN(value)) throw new MethodInputError('inconsistent', `${what} must be a number.`)
}
