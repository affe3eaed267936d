import { displayDigits } from '@curebook/trade/quantity/display'

/** How a number is cut where it is shown: `6.2` of `6.2487`, to `0.1`. Null where nothing is cut. */
export function reportedOf(digits: string, decimals: number | undefined): { cut: string; step: string } | null {
  if (decimals === undefined) return null
  const cut = displayDigits(digits, { decimals })
  // Zeros behind the point are no digits that were cut off.
  if (Number.isNaN(Number(digits)) || (digits.split('.')[1] ?? '').replace(/0+$/, '').length <= decimals) return null
  return { cut, step: decimals === 0 ? '1' : `0.${'0'.repeat(decimals - 1)}1` }
}
