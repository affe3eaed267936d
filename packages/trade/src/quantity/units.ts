import { Decimal } from './decimal.ts'
import { units, type Unit } from './unit-table.ts'

/** Two units that do not measure the same thing, or whose relation is not a plain factor. */
export class UnitMismatchError extends Error {
  override readonly name = 'UnitMismatchError'
  constructor(
    readonly from: string,
    readonly to: string,
    message = `${from} cannot be converted to ${to}: they do not measure the same thing.`,
  ) {
    super(message)
  }
}

/**
 * Converts a value by the exact definitions of `unit-table.ts`; temperatures with their offset.
 * One multiplication and one division at 34 digits, nothing else is rounded.
 * @throws UnitMismatchError when the dimensions differ
 */
export function convert(value: Decimal, from: Unit, to: Unit): Decimal {
  if (from === to) return value
  const { numerator, denominator } = ratio(from, to)
  const offsetFrom = offsetOf(from)
  const offsetTo = offsetOf(to)
  return value.minus(offsetFrom).times(numerator).div(denominator).plus(offsetTo)
}

/**
 * The number by which a value in `from` is multiplied to stand in `to`.
 * @throws UnitMismatchError when the dimensions differ, or for temperatures, which also have an offset
 */
export function conversionFactor(from: Unit, to: Unit): Decimal {
  const { numerator, denominator } = ratio(from, to)
  if (offsetOf(from) !== offsetOf(to))
    throw new UnitMismatchError(
      from,
      to,
      `${from} is not converted to ${to} by a factor alone: use the conversion of values.`,
    )
  return numerator.div(denominator)
}

function ratio(from: Unit, to: Unit) {
  const source = units[from]
  const target = units[to]
  if (source.dimension !== target.dimension) throw new UnitMismatchError(from, to)
  return {
    numerator: new Decimal(source.numerator).times(target.denominator),
    denominator: new Decimal(source.denominator).times(target.numerator),
  }
}

function offsetOf(key: Unit): string {
  const definition: { readonly offset?: string } = units[key]
  return definition.offset ?? '0'
}
