/** Why a number cannot be computed from what was observed. A closed list: each code has one sentence in the catalogues. */
export type RefusalCode =
  | 'missing-reading' // a reading that the formula needs is not there yet
  | 'missing-setup' // a machine factor, frame opening, moisture or residue is not on record
  | 'gain' // a gain where only a loss can be: still wet, or not this disc
  | 'loss' // a loss where only a gain can be
  | 'not-positive' // a mass, area or share that must be greater than zero is not
  | 'inconsistent' // two readings that cannot both be true
  | 'not-bracketed' // what is looked for lies outside what was read: nothing is extrapolated
  | 'outside-conditions' // made where the method does not hold: another method is for it
  | 'waits-for-release' // a reading that the formula needs is kept and does not count until released
  | 'reading-withdrawn' // a reading that the formula needed was taken back and is to be read again

/** Thrown by a formula that cannot be computed; `evaluate` of its method turns it into a refusal. */
export class MethodInputError extends Error {
  override readonly name = 'MethodInputError'
  constructor(
    readonly code: RefusalCode,
    /** One sentence for the person at the bench: what is wrong, and what would be right. */
    message: string,
    /** The values the sentence speaks of, digits with unit, for display. */
    readonly detail: Readonly<Record<string, string>> = {},
  ) {
    super(message)
  }
}
