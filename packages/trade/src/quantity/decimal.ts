import { Decimal as BaseDecimal } from 'decimal.js'

/**
 * The arithmetic of the trade: 34 significant digits (the precision of IEEE 754 decimal128),
 * halves to even. Nothing is rounded before a result is reported.
 */
export const Decimal = BaseDecimal.clone({
  precision: 34,
  rounding: BaseDecimal.ROUND_HALF_EVEN,
  toExpNeg: -30,
  toExpPos: 40,
})
export type Decimal = InstanceType<typeof Decimal>

/** A decimal from its digits as typed or stored (point as decimal sign). */
export function decimal(digits: string | number | Decimal): Decimal {
  return new Decimal(digits)
}

/** All digits of a decimal in plain notation, without exponent; nothing is cut or padded. */
export function plainDigits(value: Decimal): string {
  return value.isZero() ? '0' : value.toFixed()
}
