import {
  refuse,
  type Custodian,
  type CustodyAct,
  type CustodyActKind,
  type CustodyOutcome,
  type CustodyRefusal,
  type CustodyState,
  type KnownPlace,
  type Person,
} from './custody.ts'
import { isMass, sharesOf } from './split.ts'

const done = (state: CustodyState): CustodyOutcome => ({ ok: true, state, pieces: [] })

/** What an act makes of an item's custody, or why it cannot be done. */
export function applyAct(state: CustodyState, act: CustodyAct): CustodyOutcome {
  const refusal = refusalOfState(state, act)
  if (refusal) return refusal
  const { by } = act
  const massG = state.status === 'with' || state.status === 'offered' ? state.massG : null
  const stays = state.status === 'with' || state.status === 'offered' ? state.custodian : by
  switch (act.kind) {
    case 'received':
      if (act.from.name.trim() === '') return refuse('one-sided', 'Say who brought or sent it: receiving takes two.')
      if (act.massG !== null && (!isMass(act.massG) || isUsedUp(act)))
        return refuse('not-a-mass', `A mass must be more than 0 g, like 24800: “${act.massG}” is not.`)
      return (
        refusalOfPlace(act.to) ?? done({ status: 'with', custodian: custodianOf(act.to), massG: act.massG ?? massG })
      )
    case 'taken':
    case 'gap':
      if (act.kind === 'gap' && act.reason.trim() === '')
        return refuse('no-reason', 'Say from when to when nobody can say who had it, and how it was found.')
      return done({ status: 'with', custodian: by, massG })
    case 'placed':
      return refusalOfPlace(act.to) ?? done({ status: 'with', custodian: custodianOf(act.to), massG })
    case 'split': {
      const shares = sharesOf(act, massG)
      if (!shares.ok) return shares
      return {
        ok: true,
        state: { status: 'with', custodian: stays, massG: shares.leftG },
        pieces: act.pieces.map((piece) => ({
          id: piece.id,
          state: { status: 'with', custodian: stays, massG: piece.massG },
        })),
      }
    }
    case 'offered':
      if (stays.kind === 'party' || act.to.name.trim() === '') return refuse('one-sided', 'Say to whom it is offered.')
      return done({ status: 'offered', custodian: stays, to: act.to, massG })
    case 'accepted':
      if (state.status !== 'offered') return refuse('no-offer', 'Nothing is offered that could be accepted.')
      return refusalOfReceipt(act.receipt) ?? done({ status: 'with', custodian: state.to, massG })
    case 'refused':
      if (act.reason.trim() === '') return refuse('no-reason', 'Say why it stays here.')
      return done({ status: 'with', custodian: stays, massG })
    case 'sent':
    case 'returned':
      if (act.to.name.trim() === '') return refuse('one-sided', 'Say to whom it goes.')
      return refusalOfReceipt(act.receipt) ?? done({ status: 'with', custodian: act.to, massG })
    case 'disposed':
      if (act.reason.trim() === '') return refuse('no-reason', 'Say who asked for the disposal, and how it was done.')
      return done({ status: 'disposed' })
  }
}

const kinds: readonly CustodyActKind[] = [
  'received',
  'taken',
  'placed',
  'split',
  'offered',
  'accepted',
  'refused',
  'sent',
  'returned',
  'disposed',
  'gap',
]

/** What this person may do with the item as it stands now, once what the act needs is given. */
export function allowedActs(state: CustodyState, by: Person): CustodyActKind[] {
  return kinds.filter((kind) => refusalOfState(state, { kind, by }) === null)
}

/** Whether a test on the item may begin: in somebody's care inside the laboratory, and not promised away. */
export function mayTest(state: CustodyState): { readonly ok: true } | CustodyRefusal {
  switch (state.status) {
    case 'not-begun':
      return refuse('not-received', 'Nobody has received it yet: record who has it, then test it.')
    case 'disposed':
      return refuse('disposed', 'It was disposed of: there is nothing left to test.')
    case 'offered':
      return refuse('offered', `It is offered to ${state.to.name}: record the answer first.`)
    case 'with':
      if (state.custodian.kind === 'party')
        return refuse('outside', `It is with ${state.custodian.name}, out of the laboratory’s care: receive it first.`)
      return isUsedUp(state)
        ? refuse('used-up', 'Nothing of it is left: all of it went into its pieces.')
        : { ok: true }
  }
}

/** What speaks against a kind of act before anything else is looked at. */
function refusalOfState(
  state: CustodyState,
  { kind, by, to }: { kind: CustodyActKind; by: Person; to?: Custodian | KnownPlace },
): CustodyRefusal | null {
  switch (state.status) {
    case 'disposed':
      return refuse('disposed', 'It was disposed of: nothing more is done with it.')
    case 'not-begun':
      if (state.from === 'outside' ? kind === 'received' : kind === 'taken' || kind === 'placed') return null
      return refuse('not-received', 'Nobody has it yet by the record: say first who received or took it.')
    case 'offered':
      if (kind === 'accepted' || kind === 'refused' || kind === 'gap') return null
      return refuse('offered', `It is offered to ${state.to.name}: record their answer, or take the offer back.`)
    case 'with':
      return refusalOfHeld(state, { kind, by, to })
  }
}

function refusalOfHeld(
  state: Extract<CustodyState, { status: 'with' }>,
  { kind, by, to }: { kind: CustodyActKind; by: Person; to?: Custodian | KnownPlace },
): CustodyRefusal | null {
  const { custodian } = state
  if (kind === 'accepted' || kind === 'refused') return refuse('no-offer', 'Nothing is offered, so there is no answer.')
  if (kind === 'gap') return null
  if (custodian.kind === 'party')
    return kind === 'received'
      ? null
      : refuse('outside', `It is with ${custodian.name}, out of the laboratory’s care: receive it first.`)
  if (kind === 'received')
    return refuse('already-here', `It is here, with ${custodian.name}: take it over instead of receiving it.`)
  const has = custodian.kind === 'person' && custodian.id === by.id
  if (kind === 'taken') return has ? refuse('already-has', 'You have it already.') : null
  if (custodian.kind === 'person' && !has)
    return refuse('with-another', `${custodian.name} has it: take it over first.`)
  if (kind === 'placed' && to?.kind === 'place' && custodian.kind === 'place' && to.id === custodian.id)
    return refuse('already-has', `It stands in ${custodian.name} already.`)
  if (kind === 'split' && isUsedUp(state)) return refuse('used-up', 'Nothing of it is left to split.')
  return null
}

function isUsedUp({ massG }: { massG: string | null }): boolean {
  return massG !== null && /^0+(\.0+)?$/.test(massG)
}

function refusalOfPlace(to: Person | KnownPlace): CustodyRefusal | null {
  if (to.kind === 'person' || to.accessControlled) return null
  return refuse(
    'open-place',
    `Anybody can enter ${to.name}, so it cannot have custody: name a place with access control, or a person.`,
  )
}

function refusalOfReceipt(receipt: string): CustodyRefusal | null {
  if (receipt.trim() !== '') return null
  return refuse(
    'one-sided',
    'Leaving the laboratory takes two: say who signed for it there, or the number of the carrier’s paper. Otherwise offer it.',
  )
}

function custodianOf(to: Person | KnownPlace): Custodian {
  return to.kind === 'person' ? to : { kind: 'place', id: to.id, name: to.name }
}
