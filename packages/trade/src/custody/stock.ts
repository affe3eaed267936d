import { decimal, plainDigits } from '../quantity/decimal.ts'

export type Stock = {
  /** In grams; null where it was never weighed. */
  readonly leftG: string | null
  /** More was drawn, lost and given away than came: a mass is wrong, or another container was used. */
  readonly overdrawn: boolean
}

/**
 * What is left of a sample here: what came, less what batches drew, what splits lost and what pieces of it went away or were
 * disposed of. All in grams, unrounded.
 */
export function stockOf({
  receivedG,
  drawnG,
  lostG,
  goneG,
}: {
  readonly receivedG: string | null
  readonly drawnG: string
  readonly lostG: string
  readonly goneG: string
}): Stock {
  if (receivedG === null) return { leftG: null, overdrawn: false }
  const left = decimal(receivedG).minus(drawnG).minus(lostG).minus(goneG)
  return left.isNegative() ? { leftG: '0', overdrawn: true } : { leftG: plainDigits(left), overdrawn: false }
}
