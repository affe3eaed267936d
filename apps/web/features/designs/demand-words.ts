import type { DemandRow } from '@curebook/contract/demand'

/** Grams in digits as kilograms in digits: the point moves, nothing is rounded. */
export function kilograms(grams: string): string {
  const [whole = '0', part = ''] = grams.split('.')
  const padded = whole.padStart(4, '0')
  const digits = `${padded.slice(0, -3)}.${padded.slice(-3)}${part}`.replace(/0+$/, '').replace(/\.$/, '')
  return digits.replace(/^0+(?=\d)/, '')
}

/** Whether what arrived suffices; unknown where it is not on record. */
export function enoughOf({ shortG }: Pick<DemandRow, 'shortG'>): 'enough' | 'short' | 'unknown' {
  if (shortG === null) return 'unknown'
  return Number(shortG) === 0 ? 'enough' : 'short'
}

/** What a client is asked for: at least so many half kilograms, so that nothing is short by a spoon. */
export function halfKilogramsUp(grams: string): string {
  return String(Math.ceil(Number(grams) / 500) / 2)
}
