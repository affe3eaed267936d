import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import { displayDigits } from '@curebook/trade/quantity/display'

export type ComparedValue =
  | { readonly kind: 'number'; readonly digits: string; readonly unit: string; readonly decimals?: number }
  | { readonly kind: 'words'; readonly words: string }

/** One fact of two things that are compared. What it is called stands in the catalogue, under its key. */
export type ComparedRow = {
  readonly key: string
  /** What the name of the row is filled with: the property, the content. */
  readonly of: Readonly<Record<string, string>>
  readonly first: ComparedValue | null
  readonly second: ComparedValue | null
  readonly difference: 'same' | 'differs' | 'only-first' | 'only-second'
  /** How far the second number lies from the first, with its sign, unrounded; null where there are not two of one unit. */
  readonly by: string | null
}

/** A row with its difference said. Numbers are compared unrounded, and 12 is 12.0. */
export function rowOf(
  key: string,
  first: ComparedValue | null,
  second: ComparedValue | null,
  of: ComparedRow['of'] = {},
): ComparedRow {
  const row = { key, of, first, second }
  if (first === null || second === null) {
    const alone = first === null ? (second === null ? 'same' : 'only-second') : 'only-first'
    return { ...row, difference: alone, by: null }
  }
  if (first.kind === 'number' && second.kind === 'number' && first.unit === second.unit) {
    const by = decimal(second.digits).minus(first.digits)
    return { ...row, difference: by.isZero() ? 'same' : 'differs', by: by.isZero() ? null : plainDigits(by) }
  }
  return { ...row, difference: wordsOf(first) === wordsOf(second) ? 'same' : 'differs', by: null }
}

function wordsOf(value: ComparedValue): string {
  return value.kind === 'words' ? value.words : `${value.digits} ${value.unit}`
}

/** The most decimals that are shown to tell two numbers apart; whoever needs more opens the calculation. */
const mostDecimals = 12

/** Decimals at which two different numbers also look different: the usual ones, or as many more as that takes. */
export function decimalsApart(first: string, second: string, usual: number): number {
  const isSame = (decimals: number) => displayDigits(first, { decimals }) === displayDigits(second, { decimals })
  let decimals = usual
  if (decimal(first).eq(second)) return decimals
  while (decimals < mostDecimals && isSame(decimals)) decimals += 1
  return decimals
}
