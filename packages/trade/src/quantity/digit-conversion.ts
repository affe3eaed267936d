import { units, type Unit } from './unit-table.ts'

/**
 * Converts digits between two units of one dimension without a decimal library, for the browser's sake: exact where the
 * quotient ends, otherwise 34 significant digits, halves to even, which is what `convert` of `units.ts` gives.
 */
export function convertDigits(digits: string, from: Unit, to: Unit): string {
  const source: Definition = units[from]
  const target: Definition = units[to]
  const value = subtract(parse(digits), parse(source.offset ?? '0'))
  const top = multiply(multiply(value, parse(source.numerator)), parse(target.denominator))
  const bottom = multiply(parse(source.denominator), parse(target.numerator))
  const offset = parse(target.offset ?? '0')
  return print(subtract(divide(top, bottom), { ...offset, whole: -offset.whole }))
}

/** Negative, zero or positive as one number in plain digits is less than, equal to or greater than another. */
export function compareDigits(one: string, other: string): number {
  const { whole } = subtract(parse(one), parse(other))
  return whole < 0n ? -1 : whole > 0n ? 1 : 0
}

/** The first number less the second, both in plain digits; exact. */
export function subtractDigits(one: string, other: string): string {
  return print(subtract(parse(one), parse(other)))
}

/** Whether a number in plain digits is a whole multiple of a step that is greater than zero. */
export function isMultipleOf(digits: string, step: string): boolean {
  const places = Math.max(parse(digits).places, parse(step).places)
  const at = (x: Digits) => x.whole * 10n ** BigInt(places - x.places)
  return at(parse(digits)) % at(parse(step)) === 0n
}

/** Whether two numbers lie further apart than a tolerance, given in their unit or in % of the second. */
export function differsByMoreThan(
  value: string,
  target: string,
  tolerance: { readonly value: string; readonly unit: string },
): boolean {
  const apart = absolute(subtract(parse(value), parse(target)))
  const hundredfold = { ...apart, whole: apart.whole * 100n }
  return tolerance.unit === '%'
    ? subtract(hundredfold, absolute(multiply(parse(target), parse(tolerance.value)))).whole > 0n
    : subtract(apart, parse(tolerance.value)).whole > 0n
}

function absolute(x: Digits): Digits {
  return { ...x, whole: x.whole < 0n ? -x.whole : x.whole }
}

type Definition = { readonly numerator: string; readonly denominator: string; readonly offset?: string }
/** whole × 10^−places */
type Digits = { readonly whole: bigint; readonly places: number }

/** Digits of decimal128, IEEE 754 (2019). */
const significant = 34

function parse(text: string): Digits {
  const [head = '0', tail = ''] = text.split('.')
  return { whole: BigInt(head + tail), places: tail.length }
}

function subtract(a: Digits, b: Digits): Digits {
  const places = Math.max(a.places, b.places)
  const scale = (x: Digits) => x.whole * 10n ** BigInt(places - x.places)
  return { whole: scale(a) - scale(b), places }
}

function multiply(a: Digits, b: Digits): Digits {
  return { whole: a.whole * b.whole, places: a.places + b.places }
}

function divide(a: Digits, b: Digits): Digits {
  if (a.whole === 0n) return { whole: 0n, places: 0 }
  const negative = a.whole < 0n
  const top = negative ? -a.whole : a.whole
  const lengthOf = (x: bigint) => x.toString().length
  let shift = significant + lengthOf(b.whole) - lengthOf(top)
  const quotientAt = (places: number) =>
    places >= 0 ? ([top * 10n ** BigInt(places), b.whole] as const) : ([top, b.whole * 10n ** BigInt(-places)] as const)
  let [numerator, denominator] = quotientAt(shift)
  if (lengthOf(numerator / denominator) > significant) [numerator, denominator] = quotientAt(--shift)
  const quotient = numerator / denominator
  const twice = (numerator % denominator) * 2n
  const up = twice > denominator || (twice === denominator && quotient % 2n === 1n)
  const whole = quotient + (up ? 1n : 0n)
  return { whole: negative ? -whole : whole, places: shift + a.places - b.places }
}

function print({ whole, places }: Digits): string {
  const negative = whole < 0n
  const text = (negative ? -whole : whole).toString() + '0'.repeat(Math.max(0, -places))
  const decimals = Math.max(0, places)
  const padded = text.padStart(decimals + 1, '0')
  const head = padded.slice(0, padded.length - decimals)
  const tail = padded.slice(padded.length - decimals).replace(/0+$/, '')
  return `${negative ? '-' : ''}${head}${tail === '' ? '' : `.${tail}`}`
}
