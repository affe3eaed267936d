import { MethodInputError } from './method-input-error.ts'
import { divide, type RoundingRule } from './rounding.ts'

type Cutting = Exclude<RoundingRule, 'none'>

/**
 * The digits rounded in one step to a multiple of any step — 1, 5, 10, 0.05 — and shown to the step's own decimals. A half
 * goes to the even multiple under `half-even`, which is what ASTM E29 reaches by doubling, rounding and halving. Exact.
 * @throws MethodInputError `inconsistent` for what is no number in digits, `not-positive` for a step of 0 or less
 */
export function roundToStep(digits: string, step: string, rule: Cutting): string {
  const value = parse(digits, 'A number to be rounded')
  const unit = parse(step, 'The step of a rounding')
  if (unit.whole <= 0n) throw new MethodInputError('not-positive', 'The step of a rounding must be greater than 0.')
  const places = Math.max(value.places, unit.places)
  const size = scaled(value, places)
  const width = scaled(unit, places)
  const multiple = divide(size < 0n ? -size : size, width, rule) * unit.whole
  return written(size < 0n ? -multiple : multiple, unit.places)
}

/**
 * The digits rounded in one step to so many significant figures. 9.96 to two is 10.
 * 30 is within the 34 digits of IEEE 754 (2019) that are computed with.
 * @throws MethodInputError `inconsistent` for what is no number in digits, or figures that are no whole number from 1 to 30
 */
export function roundToFigures(digits: string, figures: number, rule: Cutting): string {
  if (!(Number.isInteger(figures) && figures >= 1 && figures <= 30))
    throw new MethodInputError('inconsistent', 'Significant figures are a whole number from 1 to 30.')
  const { whole, places } = parse(digits, 'A number to be rounded')
  if (whole === 0n) return '0'
  const length = (whole < 0n ? -whole : whole).toString().length
  const once = roundToStep(digits, stepOf(length - places - figures), rule)
  // Rounded up to the next power of ten it has one figure more than asked, and that is a zero.
  const grown = parse(once, 'A number to be rounded')
  const longer = (grown.whole < 0n ? -grown.whole : grown.whole).toString().length - grown.places > length - places
  return longer ? roundToStep(once, stepOf(length - places - figures + 1), rule) : once
}

/** 10 to a power, in plain digits. */
function stepOf(power: number): string {
  return power >= 0 ? `1${'0'.repeat(power)}` : `0.${'0'.repeat(-power - 1)}1`
}

type Whole = { readonly whole: bigint; readonly places: number }

function parse(digits: string, label: string): Whole {
  const parts = /^([+-]?)(\d+)(?:\.(\d*))?$/.exec(digits)
  if (parts === null) throw new MethodInputError('inconsistent', `${label} must be a number in digits, like 812.4.`)
  const [, sign = '', head = '', tail = ''] = parts
  const whole = BigInt(head + tail)
  return { whole: sign === '-' ? -whole : whole, places: tail.length }
}

function scaled({ whole, places }: Whole, to: number): bigint {
  return whole * 10n ** BigInt(to - places)
}

function written(whole: bigint, places: number): string {
  const text = (whole < 0n ? -whole : whole).toString().padStart(places + 1, '0')
  const point = text.length - places
  return `${whole < 0n ? '-' : ''}${text.slice(0, point)}${places === 0 ? '' : `.${text.slice(point)}`}`
}
