/**
 * Chain of custody of an item: who or which place has it, from its receipt to its disposal. Inside the laboratory each act
 * names one person, and a place with access control can have it (its evening person may be asleep); at the laboratory's
 * boundary two sides take part. What a transfer records follows ASTM D4840: from memory, unverified.
 */
export type Person = { readonly kind: 'person'; readonly id: string; readonly name: string }
export type Place = { readonly kind: 'place'; readonly id: string; readonly name: string }
/** Somebody outside the laboratory: a client, a carrier, another laboratory. */
export type Party = { readonly kind: 'party'; readonly name: string }
export type Custodian = Person | Place | Party

/** A place as the laboratory's record knows it. */
export type KnownPlace = Place & { readonly accessControlled: boolean }

/** Exactly one custodian, or none before the first act and after the last. Masses are digits in grams; null: not weighed. */
export type CustodyState =
  | { readonly status: 'not-begun'; readonly from: 'outside' | 'here' }
  | { readonly status: 'with'; readonly custodian: Custodian; readonly massG: string | null }
  /** Offered out of the laboratory and not answered: it is still with who offered it. */
  | {
      readonly status: 'offered'
      readonly custodian: Person | Place
      readonly to: Party
      readonly massG: string | null
    }
  | { readonly status: 'disposed' }

export type Piece = { readonly id: string; readonly massG: string }

/** What is done; `by` is the person of the laboratory who does it and answers for it. */
export type CustodyAct = { readonly by: Person } & (
  | {
      readonly kind: 'received'
      readonly from: Party
      readonly to: Person | KnownPlace
      readonly massG: string | null
    }
  | { readonly kind: 'taken' }
  | { readonly kind: 'placed'; readonly to: KnownPlace }
  | {
      readonly kind: 'split'
      readonly pieces: readonly Piece[]
      readonly lossG: string
      /** What stays under the item's own code, as weighed; null: what the numbers leave. */
      readonly leftG: string | null
      /** The item's mass as weighed for this, where none is on record. */
      readonly weighedG: string | null
    }
  | { readonly kind: 'offered'; readonly to: Party }
  /** The other side has signed for what was offered: `receipt` says who, or the number of the paper. */
  | { readonly kind: 'accepted'; readonly receipt: string }
  /** Refused by the other side, or taken back. */
  | { readonly kind: 'refused'; readonly reason: string }
  /** To another party, who gives a receipt there and then. */
  | { readonly kind: 'sent'; readonly to: Party; readonly receipt: string }
  /** Back to whom it belongs. */
  | { readonly kind: 'returned'; readonly to: Party; readonly receipt: string }
  | { readonly kind: 'disposed'; readonly reason: string }
  /** For a while nobody can say who had it; it is with who found it now. */
  | { readonly kind: 'gap'; readonly reason: string }
)
export type CustodyActKind = CustodyAct['kind']

export type CustodyRefusalCode =
  | 'not-received' // nothing is done to what has not arrived
  | 'already-here'
  | 'already-has' // the person or place has it already
  | 'with-another' // another person has it: take it over first
  | 'open-place' // a place that anybody can enter is no custodian
  | 'outside' // it has left the laboratory's care
  | 'offered' // an offer waits for its answer
  | 'no-offer'
  | 'disposed'
  | 'one-sided' // leaving or entering the laboratory takes two
  | 'no-reason'
  | 'mass-unknown'
  | 'mass-known'
  | 'not-a-mass'
  | 'mass-not-kept' // pieces, rest and loss are not what was there
  | 'used-up'

export type CustodyRefusal = {
  readonly ok: false
  readonly code: CustodyRefusalCode
  /** What is wrong, and what would be right. */
  readonly sentence: string
}
export type CustodyOutcome =
  | {
      readonly ok: true
      readonly state: CustodyState
      /** The pieces of a split, each in the care in which the item was. */
      readonly pieces: readonly { readonly id: string; readonly state: CustodyState }[]
    }
  | CustodyRefusal

/** A refusal with its sentence. */
export function refuse(code: CustodyRefusalCode, sentence: string): CustodyRefusal {
  return { ok: false, code, sentence }
}

/** Where the chain of an item begins: a sample comes from outside, everything else is made in the laboratory. */
export function notBegun(itemKind: string): CustodyState {
  return { status: 'not-begun', from: itemKind === 'sample' || itemKind === 'field-sample' ? 'outside' : 'here' }
}
