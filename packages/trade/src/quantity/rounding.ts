/**
 * How a number is cut for a comparison or a report, named by the rule:
 * - `half-even`: halves to the even digit, the rounding method of ASTM E29 (also Alberta ATT-70)
 * - `half-up`: halves away from zero (Iowa IM 202, Ontario LS-100)
 * - `up`: always away from zero (sand equivalent, ASTM D2419: from memory, unverified)
 * - `truncate`: the further digits are dropped (intermediate values in Louisiana's rules of 2018)
 * - `none`: not rounded
 */
export type RoundingRule = 'half-even' | 'half-up' | 'up' | 'truncate' | 'none'

/**
 * The digits rounded to so many decimals in one step, padded with zeros to exactly that many.
 * `none` gives the digits back. `decimals` is a whole number from 0 to 30. Exact on whole numbers, without a decimal
 * library, for the browser's sake.
 * @throws {RangeError} when the text is no number in digits
 */
export function round(digits: string, decimals: number, rule: RoundingRule): string {
  if (rule === 'none') return digits
  const parts = /^([+-]?)(\d+)(?:\.(\d*))?(?:e([+-]?\d+))?$/i.exec(digits)
  if (parts === null) throw new RangeError(`“${digits}” is not a number in digits`)
  const [, sign = '', head = '', tail = '', exponent = '0'] = parts
  const shift = decimals + Number(exponent) - tail.length
  const whole = BigInt(head + tail)
  const cut = shift >= 0 ? whole * 10n ** BigInt(shift) : divide(whole, 10n ** BigInt(-shift), rule)
  const text = cut.toString().padStart(decimals + 1, '0')
  const point = text.length - decimals
  return `${sign === '-' && cut !== 0n ? '-' : ''}${text.slice(0, point)}${decimals === 0 ? '' : `.${text.slice(point)}`}`
}

/** Whole numbers, both at least zero and the divisor above it: the quotient as a whole number by the rule. */
export function divide(dividend: bigint, divisor: bigint, rule: Exclude<RoundingRule, 'none'>): bigint {
  const quotient = dividend / divisor
  const rest = dividend % divisor
  const twice = rest * 2n
  const up = {
    'half-even': twice > divisor || (twice === divisor && quotient % 2n === 1n),
    'half-up': twice >= divisor,
    up: rest > 0n,
    truncate: false,
  }
  return up[rule] ? quotient + 1n : quotient
}
