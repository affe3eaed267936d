import { decimal, plainDigits } from '../quantity/decimal.ts'
import { refuse, type CustodyRefusal } from './custody.ts'

/** What left an item under its own code until now, in grams. */
export type Used = {
  /** Weighed out of it by batches. */
  readonly drawnG: string
  /** Of that, what its last act of custody does not know of. */
  readonly sinceG: string
  readonly piecesG: string
  readonly lostG: string
}

export type CorrectedReceipt = { readonly ok: true; readonly standingG: string | null } | CustodyRefusal

/**
 * What stands under an item's code once the mass it came with is put right: what came less what left it before its last act
 * of custody. A mass that is less than what left it already cannot be what came.
 * @param receivedG the mass put right; null where it is not told in full
 */
export function correctReceipt(receivedG: string | null, used: Used): CorrectedReceipt {
  const { drawnG, sinceG, piecesG, lostG } = used
  const left = decimal(drawnG).plus(piecesG).plus(lostG)
  if (receivedG === null) {
    if (decimal(piecesG).plus(lostG).isZero()) return { ok: true, standingG: null }
    return refuse(
      'mass-unknown',
      `${plainDigits(decimal(piecesG).plus(lostG))} g were split off it already: give the mass of every container.`,
    )
  }
  if (left.gt(receivedG))
    return refuse(
      'mass-not-kept',
      `${receivedG} g is less than the ${plainDigits(left)} g that left it already: ${drawnG} g drawn by batches, ${piecesG} g in pieces, ${lostG} g lost. Look at the masses again.`,
    )
  return { ok: true, standingG: plainDigits(decimal(receivedG).minus(left).plus(sinceG)) }
}
