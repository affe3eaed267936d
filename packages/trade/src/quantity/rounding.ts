import { Decimal } from './decimal.ts'

/**
 * How a number is cut for a comparison or a report, named by the rule:
 * - `half-even`: halves to the even digit, the rounding method of ASTM E29
 * - `half-up`: halves away from zero
 * - `up`: always away from zero
 * - `truncate`: the further digits are dropped
 * - `none`: not rounded
 */
export type RoundingRule = 'half-even' | 'half-up' | 'up' | 'truncate' | 'none'

const modes = {
  'half-even': Decimal.ROUND_HALF_EVEN,
  'half-up': Decimal.ROUND_HALF_UP,
  up: Decimal.ROUND_UP,
  truncate: Decimal.ROUND_DOWN,
} as const satisfies Readonly<Record<Exclude<RoundingRule, 'none'>, number>>

/**
 * The digits rounded to so many decimals in one step, padded with zeros to exactly that many.
 * `none` gives the digits back. `decimals` is a whole number from 0 to 30.
 */
export function round(digits: string, decimals: number, rule: RoundingRule): string {
  if (rule === 'none') return digits
  const rounded = new Decimal(digits).toFixed(decimals, modes[rule])
  return /^-0(\.0*)?$/.test(rounded) ? rounded.slice(1) : rounded
}
