import { decimal, plainDigits } from '../quantity/decimal.ts'

export type Stock = {
  /** In grams; null where it was never weighed. */
  readonly leftG: string | null
  /** More was drawn and lost than came: a mass is wrong, or another container was used. */
  readonly overdrawn: boolean
}

/** What is left of a sample: what came, less what batches drew and what splits lost. All in grams, unrounded. */
export function stockOf({
  receivedG,
  drawnG,
  lostG,
}: {
  readonly receivedG: string | null
  readonly drawnG: string
  readonly lostG: string
}): Stock {
  if (receivedG === null) return { leftG: null, overdrawn: false }
  const left = decimal(receivedG).minus(drawnG).minus(lostG)
  return left.isNegative() ? { leftG: '0', overdrawn: true } : { leftG: plainDigits(left), overdrawn: false }
}
