import { round, type RoundingRule } from './rounding.ts'
import { writtenUnit } from './unit-table.ts'

export type DecimalSign = '.' | ','

/**
 * Digits for the eye: the laboratory's decimal sign, never grouped. Without `decimals` they stay as typed, trailing zeros
 * included; with `decimals` they are cut in one step by the rule (halves to even unless another is named).
 */
export function displayDigits(
  digits: string,
  options: { readonly sign?: DecimalSign; readonly decimals?: number; readonly rule?: RoundingRule } = {},
): string {
  const cut = options.decimals === undefined ? digits : round(digits, options.decimals, options.rule ?? 'half-even')
  return (options.sign === ',' ? cut.replace('.', ',') : cut).replace(/^-/, '−')
}

/** Digits with their unit, parted by a space that does not break; alone where the unit is not written. */
export function displayQuantity(
  digits: string,
  unit: string,
  options: { readonly sign?: DecimalSign; readonly decimals?: number; readonly rule?: RoundingRule } = {},
): string {
  return [displayDigits(digits, options), writtenUnit(unit)].filter((part) => part !== '').join('\u00a0')
}
