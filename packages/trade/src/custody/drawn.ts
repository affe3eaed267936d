import { decimal, plainDigits, type Decimal } from '../quantity/decimal.ts'

/** What moved mass out of an item and of what was set apart of it. Masses are digits in grams. */
export type Move =
  /**
   * A batch weighed it; a correction counts by how much it changed. `from` the item itself, from a piece of it that was named,
   * or `unnamed`: the batch names the sample only, not the bag.
   * `since`: after the item's last act of custody, whose mass knows what came before.
   */
  | {
      readonly kind: 'drawn'
      readonly from: 'item' | 'piece' | 'unnamed'
      readonly massG: string
      readonly since: boolean
    }
  /** Set apart as a piece under a code of its own. */
  | { readonly kind: 'piece'; readonly massG: string }
  /** Lost when a piece was split again. */
  | { readonly kind: 'lost'; readonly massG: string }
  /** A piece went away with this mass by the record, less what batches weighed out of it by name. */
  | { readonly kind: 'away'; readonly massG: string; readonly disposed: boolean }

export type Account = {
  /** What batches drew of the item itself, all in all. */
  readonly drawnG: string
  /** Of that, what its last act of custody does not know of. */
  readonly sinceG: string
  /** What went away or was disposed of in pieces, without what batches had used of them. */
  readonly goneG: string
}

const zero = decimal('0')
const less = (a: Decimal, b: Decimal) => (a.lt(b) ? a : b)
const atLeastNothing = (mass: Decimal) => (mass.isNegative() ? zero : mass)

/**
 * What batches drew of an item itself, and what of it is away. A weighing that names its bag is taken off that bag. One that
 * names the sample only is taken to be of what was set apart, while there is some, and a bag that is disposed of is taken to
 * be one that such weighings emptied (common practice, no source): it is not taken off a second time.
 * @param moves in the order in which they were recorded
 */
export function accountOf(moves: readonly Move[]): Account {
  /** Set apart, still here and not used by the record. */
  let apart = zero
  /** Used of what was set apart by weighings that name no bag, and not yet put down to one that was disposed of. */
  let presumed = zero
  /** Used by such weighings and put down to bags that were disposed of since. */
  let putDown = zero
  /** What such weighings drew of the item itself. */
  let ofItem = zero
  let drawn = zero
  let since = zero
  let gone = zero
  for (const move of moves) {
    const mass = decimal(move.massG)
    if (move.kind === 'piece') apart = apart.plus(mass)
    else if (move.kind === 'lost') apart = atLeastNothing(apart.minus(mass))
    else if (move.kind === 'away') {
      const used = move.disposed ? less(presumed, mass) : zero
      presumed = presumed.minus(used)
      putDown = putDown.plus(used)
      gone = gone.plus(mass).minus(used)
      apart = atLeastNothing(apart.minus(mass).plus(used))
    } else if (move.from === 'piece') apart = atLeastNothing(apart.minus(mass))
    else {
      let ofPieces = zero
      if (move.from === 'unnamed' && mass.isNegative()) {
        // Given back the other way round than it was taken: the item's own first, then what is still there of the bags, and
        // last what was thrown away in a bag that these weighings did not empty after all.
        const own = less(mass.negated(), ofItem)
        const apartAgain = less(mass.negated().minus(own), presumed)
        const goneAfterAll = less(mass.negated().minus(own).minus(apartAgain), putDown)
        ofItem = ofItem.minus(own)
        presumed = presumed.minus(apartAgain)
        apart = apart.plus(apartAgain)
        putDown = putDown.minus(goneAfterAll)
        gone = gone.plus(goneAfterAll)
        ofPieces = apartAgain.plus(goneAfterAll).negated()
      } else if (move.from === 'unnamed') {
        ofPieces = less(mass, apart)
        apart = apart.minus(ofPieces)
        presumed = presumed.plus(ofPieces)
        ofItem = ofItem.plus(mass).minus(ofPieces)
      }
      drawn = drawn.plus(mass).minus(ofPieces)
      if (move.since) since = since.plus(mass).minus(ofPieces)
    }
  }
  return {
    drawnG: plainDigits(atLeastNothing(drawn)),
    sinceG: plainDigits(atLeastNothing(since)),
    goneG: plainDigits(gone),
  }
}

/** The mass that is there: what is on record less what was drawn since; never less than nothing. */
export function massLeft(recordedG: string | null, drawnG: string): string | null {
  if (recordedG === null) return null
  return plainDigits(atLeastNothing(decimal(recordedG).minus(drawnG)))
}

/** How much more was drawn than was there by the record; null where it was not more, or nobody knows. */
export function overdrawnBy(recordedG: string | null, drawnG: string): string | null {
  if (recordedG === null) return null
  const over = decimal(drawnG).minus(recordedG)
  return over.gt(0) ? plainDigits(over) : null
}
