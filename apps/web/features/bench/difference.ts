import { compareDigits, subtractDigits } from '@curebook/trade/quantity/digit-conversion'
import { round } from '@curebook/trade/quantity/rounding'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'

export type Difference = { readonly sense: 'loss' | 'gain' | 'none'; readonly digits: string }

/** What a specimen lost or gained between two weighings as typed, exact; nothing while either cannot be read. */
export function differenceOf(before: string, after: string, unit: string | undefined): Difference | undefined {
  const [first, second] = [before, after].map((typed) => readTypedNumber(typed, { unit, mayBeNegative: true }))
  if (!first?.ok || !second?.ok) return undefined
  const sign = compareDigits(first.value, second.value)
  const apart = sign < 0 ? subtractDigits(second.value, first.value) : subtractDigits(first.value, second.value)
  // The finer of the two weighings says how many decimals the difference has; none is lost by padding.
  const decimals = Math.max(...[first.value, second.value, apart].map((digits) => digits.split('.')[1]?.length ?? 0))
  return { sense: sign === 0 ? 'none' : sign > 0 ? 'loss' : 'gain', digits: round(apart, decimals, 'half-even') }
}
