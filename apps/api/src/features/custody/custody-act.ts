import type { Place, RecordAct } from '@curebook/contract/custody'
import type { CustodyAct, CustodyState, KnownPlace, Party, Person } from '@curebook/trade/custody/custody'
import type { Told } from '#platform/told-time'
import type { ActNumbers } from './act-reading.ts'
import type { NewCustodyEvent, Standing } from './custody.repository.ts'

const party = (name: string): Party => ({ kind: 'party', name })
const known = ({ id, name, accessControlled }: Place): KnownPlace => ({ kind: 'place', id, name, accessControlled })

/** What was sent, as the rules of the trade know it. `place` is the one that the act names. */
export function tradeActOf(sent: RecordAct, by: Person, place: Place | null, numbers: ActNumbers): CustodyAct {
  switch (sent.kind) {
    case 'received':
      return {
        kind: 'received',
        by,
        from: party(sent.from),
        to: place ? known(place) : by,
        massG: numbers.mass,
      }
    case 'placed':
      return { kind: 'placed', by, to: known(place!) }
    case 'split':
      return {
        kind: 'split',
        by,
        pieces: sent.pieces.map(({ id }, n) => ({ id, massG: numbers.pieces[n]! })),
        lossG: numbers.loss,
        leftG: numbers.left,
        weighedG: numbers.weighed,
      }
    case 'offered':
      return { kind: 'offered', by, to: party(sent.to) }
    case 'accepted':
      return { kind: 'accepted', by, receipt: sent.signedFor }
    case 'sent':
    case 'returned':
      return { kind: sent.kind, by, to: party(sent.to), receipt: sent.signedFor }
    case 'refused':
    case 'disposed':
    case 'gap':
      return { kind: sent.kind, by, reason: sent.note }
    case 'taken':
      return { kind: 'taken', by }
  }
}

/** The event's row: from whom to whom, when as told, and what was looked at and weighed. */
export function eventRowOf(
  sent: RecordAct,
  itemId: string,
  numbers: ActNumbers,
  { before, after, told, offerId }: { before: CustodyState; after: CustodyState; told: Told; offerId: string | null },
): NewCustodyEvent {
  const split = sent.kind === 'split' ? sent : undefined
  return {
    id: sent.id,
    itemId,
    kind: sent.kind,
    ...fromColumns(sent, before),
    ...(sent.kind === 'offered' ? { toParty: sent.to } : toColumns(after)),
    offerId,
    ...toldColumns(told),
    condition: sent.condition ?? null,
    sealIntact: sent.sealIntact ?? null,
    temperatureText: sent.temperature ?? null,
    temperature: numbers.temperature,
    massText: (sent.kind === 'received' ? sent.mass : split?.left) ?? null,
    mass: massOf(after),
    weighedText: split?.weighed ?? null,
    weighed: numbers.weighed,
    lossText: split?.loss ?? null,
    loss: split?.loss === undefined ? null : numbers.loss,
    signedFor: 'signedFor' in sent ? sent.signedFor : null,
    note: sent.note || null,
  }
}

/** When it happened, as told. */
export function toldColumns({ eventAt, eventFrom, sentAt, offsetMs, note }: Told) {
  return { eventAt, eventFrom, sentAt, offsetMs: BigInt(offsetMs), timeNote: note }
}

/** The row that says who has an item now. */
export function standingOf(itemId: string, state: CustodyState, lastEventId: string, kind: string): Standing {
  const nobody = { custodianId: null, placeId: null, party: null }
  const mass = massOf(state)
  switch (state.status) {
    case 'not-begun':
    case 'disposed':
      return { itemId, ...nobody, mass: null, status: 'disposed', lastEventId }
    case 'offered':
      return { itemId, ...nobody, ...insideColumns(state), party: state.to.name, mass, status: 'offered', lastEventId }
    case 'with':
      return state.custodian.kind === 'party'
        ? {
            itemId,
            ...nobody,
            party: state.custodian.name,
            mass,
            status: kind === 'returned' ? 'returned' : 'sent',
            lastEventId,
          }
        : { itemId, ...nobody, ...insideColumns(state), mass, status: 'with', lastEventId }
  }
}

function insideColumns({ custodian }: Extract<CustodyState, { status: 'with' | 'offered' }>) {
  return custodian.kind === 'person'
    ? { custodianId: custodian.id }
    : { placeId: custodian.kind === 'place' ? custodian.id : null }
}

function fromColumns(sent: RecordAct, state: CustodyState) {
  if (sent.kind === 'received') return { fromParty: sent.from }
  if (state.status !== 'with' && state.status !== 'offered') return {}
  const { custodian } = state
  if (custodian.kind === 'party') return { fromParty: custodian.name }
  return custodian.kind === 'person' ? { fromMemberId: custodian.id } : { fromPlaceId: custodian.id }
}

function toColumns(state: CustodyState) {
  if (state.status !== 'with' && state.status !== 'offered') return {}
  const { custodian } = state
  if (custodian.kind === 'party') return { toParty: custodian.name }
  return custodian.kind === 'person' ? { toMemberId: custodian.id } : { toPlaceId: custodian.id }
}

function massOf(state: CustodyState): string | null {
  return state.status === 'with' || state.status === 'offered' ? state.massG : null
}
