import { decimal, plainDigits } from '../quantity/decimal.ts'

/** Mass that a batch weighed out of an item (a correction: by how much it changed), or that was set apart as a piece of it. */
export type Move = {
  readonly kind: 'drawn' | 'piece'
  readonly massG: string
  /** After the item's last act of custody, whose mass knows what came before. */
  readonly since: boolean
}

/**
 * What batches drew of an item itself since its last act of custody, in grams. A batch names the item, not the bag it was
 * weighed from: bags that were set apart before are used up first (common practice, no source).
 * @param moves in the order in which they were recorded
 */
export function drawnSince(moves: readonly Move[]): string {
  let apart = decimal('0')
  let drawn = decimal('0')
  for (const { kind, massG, since } of moves) {
    if (kind === 'piece') {
      apart = apart.plus(massG)
      continue
    }
    const mass = decimal(massG)
    const ofPieces = mass.isNegative() ? decimal('0') : mass.lt(apart) ? mass : apart
    apart = apart.minus(ofPieces)
    if (since) drawn = drawn.plus(mass).minus(ofPieces)
  }
  return plainDigits(drawn.isNegative() ? decimal('0') : drawn)
}

/** The mass that is there: what is on record less what was drawn since; never less than nothing. */
export function massLeft(recordedG: string | null, drawnG: string): string | null {
  if (recordedG === null) return null
  const left = decimal(recordedG).minus(drawnG)
  return plainDigits(left.isNegative() ? decimal('0') : left)
}
