import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import { displayDigits } from '@curebook/trade/quantity/display'
import type { ComparedRow, ComparedValue } from './compared.ts'

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

export function text(words: string | null | undefined): ComparedValue | null {
  return words ? { kind: 'words', words } : null
}

export function number(digits: string | null | undefined, unit: string, decimals?: number): ComparedValue | null {
  if (digits === null || digits === undefined) return null
  return { kind: 'number', digits, unit, ...(decimals === undefined ? {} : { decimals }) }
}

export function isSaid({ first, second }: ComparedRow): boolean {
  return first !== null || second !== null
}

/** Things of both, paired by key: in the order of the first, then what only the second has. */
export function alike<T>(
  first: readonly T[],
  second: readonly T[],
  keyOf: (thing: T) => string,
): readonly (readonly [T | undefined, T | undefined])[] {
  const others = new Map(second.map((thing) => [keyOf(thing), thing]))
  const paired = first.map((thing) => [thing, others.get(keyOf(thing))] as const)
  const known = new Set(first.map(keyOf))
  return [...paired, ...second.filter((thing) => !known.has(keyOf(thing))).map((thing) => [undefined, thing] as const)]
}
