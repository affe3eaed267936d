import type { Custodian, CustodyEvent, CustodyNow, Draw, Item, ItemPiece, Receipt } from '@curebook/contract/custody'
import type { PersonName } from '@curebook/contract/common'
import { allowedActs, mayTest } from '@curebook/trade/custody/apply-act'
import { massLeft, overdrawnBy } from '@curebook/trade/custody/drawn'
import { notBegun, type CustodyState, type Person } from '@curebook/trade/custody/custody'
import { emulsionAgeDays, retestResidueFromDay } from '@curebook/trade/custody/emulsion-age'
import { dayOf, digitsOf, personName } from '#platform/row-values'
import type { CustodyEventRow, ItemNowRow, ItemRow } from './custody.repository.ts'
import type { DrawRow } from './drawn.repository.ts'
import type { PieceRow } from './family.repository.ts'

type Family = Pick<Item, 'madeOf' | 'batches' | 'specimens' | 'tests' | 'draws'> & { pieces: readonly PieceRow[] }

/** An item with its life and its family, as the person asking sees it. */
export function toItem(
  row: ItemRow,
  family: Family,
  { person, today, drawnG }: { person: Person; today: string; drawnG: string },
): Item {
  return {
    id: row.id,
    code: row.code,
    kind: row.kind as Item['kind'],
    name: row.name ?? '',
    form: row.form,
    materialKind: row.materialKind as Item['materialKind'],
    sourceName: row.sourceName,
    supplier: row.supplier,
    lot: row.lot,
    receivedOn: row.receivedOn && dayOf(row.receivedOn),
    fraction: row.fraction,
    scalped: row.scalpedText,
    note: row.note,
    by: personName(row.by),
    at: row.at.toISOString(),
    ...toReceipts(row, today),
    custody: toCustodyNow(row, drawnG, person),
    life: inChains(row.custodyEvents).map((event) => toEvent(event, row.custodyEvents)),
    ...family,
    pieces: family.pieces.map(toPiece),
  }
}

/**
 * Custody as the rules of the trade see it, from the row that says who has the item now. Its mass is the one on record less
 * what batches drew since.
 */
export function stateOf(now: ItemNowRow | null, itemKind: string, drawnG: string): CustodyState {
  if (!now) return notBegun(itemKind)
  const massG = massLeft(now.mass && digitsOf(now.mass), drawnG)
  if (now.status === 'disposed') return { status: 'disposed' }
  if (now.status === 'sent' || now.status === 'returned')
    return { status: 'with', custodian: { kind: 'party', name: now.party! }, massG }
  const { custodian, place } = now
  const holder = custodian
    ? ({ kind: 'person', id: custodian.id, name: custodian.name } as const)
    : ({ kind: 'place', id: place!.id, name: place!.name } as const)
  if (now.status === 'offered')
    return { status: 'offered', custodian: holder, to: { kind: 'party', name: now.party! }, massG }
  return { status: 'with', custodian: holder, massG }
}

function toCustodyNow({ itemNow: now, kind }: ItemRow, drawnG: string, person: Person): CustodyNow {
  const state = stateOf(now, kind, drawnG)
  const test = mayTest(state)
  const held = state.status === 'with' || state.status === 'offered'
  const outside = state.status === 'with' && state.custodian.kind === 'party'
  return {
    status: outside ? 'outside' : state.status,
    custodian: held ? custodianOf(now!.custodian, now!.place, outside ? now!.party : null) : null,
    offeredTo: state.status === 'offered' ? state.to.name : null,
    massG: held ? state.massG : null,
    overG: held ? overdrawnBy(now!.mass && digitsOf(now!.mass), drawnG) : null,
    lastEventId: now?.lastEventId ?? null,
    allowed: allowedActs(state, person),
    // What is made here stands with the rest until somebody is recorded to have it by itself.
    testBarred: test.ok || (state.status === 'not-begun' && state.from === 'here') ? null : test.sentence,
  }
}

type Named = { id: string; name: string; initials: string }
function custodianOf(
  member: Named | null,
  place: { id: string; name: string } | null,
  party: string | null,
): Custodian | null {
  if (member) return { kind: 'person', ...personName(member) } satisfies Custodian & PersonName
  if (place) return { kind: 'place', placeId: place.id, name: place.name }
  return party === null ? null : { kind: 'party', name: party }
}

/** Links as they were told, each followed by what was put in its place. */
function inChains(events: readonly CustodyEventRow[]): CustodyEventRow[] {
  const after = ({ id }: CustodyEventRow): CustodyEventRow[] => {
    const next = events.find(({ supersedesId }) => supersedesId === id)
    return next ? [next, ...after(next)] : []
  }
  return events.filter(({ supersedesId }) => supersedesId === null).flatMap((event) => [event, ...after(event)])
}

function toEvent(row: CustodyEventRow, all: readonly CustodyEventRow[]): CustodyEvent {
  return {
    id: row.id,
    kind: row.kind as CustodyEvent['kind'],
    from: custodianOf(row.fromMember, row.fromPlace, row.fromParty),
    to: custodianOf(row.toMember, row.toPlace, row.toParty),
    eventAt: new Date(row.eventAt.getTime() + Number(row.offsetMs ?? 0)).toISOString(),
    eventFrom: row.eventFrom as CustodyEvent['eventFrom'],
    timeNote: row.timeNote,
    condition: row.condition,
    sealIntact: row.sealIntact,
    temperature: row.temperatureText,
    temperatureC: row.temperature && digitsOf(row.temperature),
    massG: row.mass && digitsOf(row.mass),
    massTyped: row.massText,
    weighedTyped: row.weighedText,
    lossG: row.loss && digitsOf(row.loss),
    signedFor: row.signedFor,
    note: row.note,
    superseded: all.some(({ supersedesId }) => supersedesId === row.id),
    correction: row.reason,
    by: personName(row.by),
    at: row.at.toISOString(),
  }
}

function toReceipts({ receipts }: ItemRow, today: string): Pick<Item, 'receipt' | 'earlierReceipts'> {
  const standing = receipts.find(({ custodyEvent }) => custodyEvent.supersededBy === null)
  return {
    receipt: standing ? toReceipt(standing, today) : null,
    earlierReceipts: receipts.flatMap((row) => {
      const { supersededBy: by } = row.custodyEvent
      if (by === null) return []
      const correction = { correctedBy: personName(by.by), correctedAt: by.at.toISOString(), reason: by.reason ?? '' }
      return [{ receipt: toReceipt(row, today), ...correction }]
    }),
  }
}

function toReceipt(row: ItemRow['receipts'][number], today: string): Receipt {
  const madeOn = row.madeOn && dayOf(row.madeOn)
  return {
    containerKind: row.containerKind,
    containerCount: row.containerCount,
    containers: row.containers.map(({ amountText, amount, unit }) => ({
      typed: amountText,
      amount: digitsOf(amount),
      unit,
    })),
    sampledBy: row.sampledBy,
    sampledWhere: row.sampledWhere,
    sampledHow: row.sampledHow,
    safetySheet: row.safetySheet as Receipt['safetySheet'],
    safetySheetName: row.safetySheetName,
    emulsionAge: madeOn ? ageOf(madeOn, today) : null,
  }
}

function ageOf(madeOn: string, today: string): Receipt['emulsionAge'] {
  const { value, source } = retestResidueFromDay
  return { madeOn, days: emulsionAgeDays(madeOn, today), retestFromDay: value, source }
}

/** What one batch weighed of an item or of a piece of it. */
export function toDraw({ itemId, itemCode, named, testId, batchCode, component, massG, typed, at, by }: DrawRow): Draw {
  const from = named ? { id: itemId, code: itemCode } : null
  return { from, testId, batchCode, component, massG, typed, at: at.toISOString(), by }
}

function toPiece({ status, ...row }: PieceRow): ItemPiece {
  const words = { sent: 'outside', returned: 'outside', gap: 'with' } as Record<string, ItemPiece['status']>
  return { ...row, status: status === null ? 'not-begun' : (words[status] ?? (status as ItemPiece['status'])) }
}
