import type { Item, Place, RecordAct } from '@curebook/contract/custody'
import { applyAct } from '@curebook/trade/custody/apply-act'
import { accountOf, massLeft } from '@curebook/trade/custody/drawn'
import type { CustodyOutcome, CustodyState, Person } from '@curebook/trade/custody/custody'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { MaterialsService } from '#features/materials/materials.service'
import type { Actor } from '#platform/actor'
import type { Canonical } from '#platform/canonical-json'
import { createOnce, type Created } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { laboratoryToday } from '#platform/laboratory-day'
import { AppError, invalidField, notFound } from '#platform/problem'
import { spanWords } from '#platform/span-words'
import { rowsSqlOf } from '#platform/sql-rows'
import { tellTime, type Told } from '#platform/told-time'
import { newId } from '#platform/uuid'
import { readActNumbers, type ActNumbers } from './act-reading.ts'
import { eventRowOf, standingOf, toldColumns, tradeActOf } from './custody-act.ts'
import { stateOf, toDraw, toItem } from './custody.mapper.ts'
import {
  findItem,
  findItemOfEvent,
  insertEvents,
  insertGapDeviation,
  insertPieces,
  lockItem,
  type ItemRow,
  type NewCustodyEvent,
  type NewPiece,
} from './custody.repository.ts'
import { findDraws, findMoves } from './drawn.repository.ts'
import { countBatches, findAncestors, findPieces, findSpecimens, findTests } from './family.repository.ts'
import type { PlacesService } from './places.service.ts'

export type CustodyService = ReturnType<typeof createCustodyService>
type Needs = {
  laboratory: Laboratory
  methods: readonly MethodDeclaration[]
  materials: MaterialsService
  places: PlacesService
}
type Pieces = Extract<CustodyOutcome, { ok: true }>['pieces']

/** Who or which place has an item, from the first day to its disposal, and where it comes from and goes to. */
export function createCustodyService({ laboratory, methods, materials, places }: Needs) {
  const readIn = async (tx: LaboratoryTransaction, id: string): Promise<Item | null> => {
    const row = await findItem(tx, id)
    if (!row) return null
    const pieces = await findPieces(tx, id)
    const sql = rowsSqlOf(tx)
    const moves = await findMoves(sql, [id, ...pieces.map((piece) => piece.id)])
    const sinceOf = (itemId: string) => accountOf(moves.get(itemId) ?? []).sinceG
    const family = {
      madeOf: await findAncestors(tx, id),
      pieces: pieces.map((piece) => ({ ...piece, leftG: massLeft(piece.leftG, sinceOf(piece.id)) })),
      draws: (await findDraws(sql, [id])).map(toDraw),
      batches: await countBatches(tx, id),
      specimens: await findSpecimens(tx, id),
      tests: (await findTests(tx, id)).map(({ methodKey, ...test }) => ({
        ...test,
        methodName: methodByKey(methods, methodKey)?.name ?? methodKey,
      })),
    }
    return toItem(row, family, { person: personOf(tx.actor), today: await laboratoryToday(tx), drawnG: sinceOf(id) })
  }

  /** The act under the item's lock: judged by what stands, appended, and what stands moved. */
  const act = async (tx: LaboratoryTransaction, itemId: string, sent: RecordAct): Promise<Item> => {
    await lockItem(tx, itemId)
    const row = await findItem(tx, itemId)
    if (!row) throw notFound('item')
    refuseOverrun(row, sent)
    const told = tellTime(sent.time, tx.at)
    refuseEarlier(row, told)
    const numbers = readActNumbers(sent)
    const place = await placeOf(tx, places, sent)
    const moves = await findMoves(rowsSqlOf(tx), [itemId])
    const before = stateOf(row.itemNow, row.kind, accountOf(moves.get(itemId)!).sinceG)
    const outcome = applyAct(before, tradeActOf(sent, personOf(tx.actor), place, numbers))
    if (!outcome.ok) throw new AppError('refused-by-rule', outcome.sentence, { extra: { reason: outcome.code } })

    const answers = sent.kind === 'accepted' || sent.kind === 'refused'
    const offerId = answers ? (row.itemNow?.lastEventId ?? null) : null
    const event = eventRowOf(sent, itemId, numbers, { before, after: outcome.state, told, offerId })
    const pieces = await piecesOf(tx, materials, row, sent, numbers, outcome.pieces)
    if (pieces.length > 0) await insertPieces(tx, pieces)
    const rows = await insertEvents(
      tx,
      [event, ...pieces.map((piece) => pieceEventOf(piece, told, outcome.state))],
      [
        { first: row.itemNow === null, standing: standingOf(itemId, outcome.state, event.id, sent.kind) },
        ...outcome.pieces.map(({ id, state }, n) => ({
          first: true,
          standing: standingOf(id, state, pieces[n]!.eventId, 'split'),
        })),
      ],
    )
    if (sent.kind === 'gap')
      rows.push(
        await insertGapDeviation(tx, { id: newId(), itemId, text: `Gap in the custody of ${row.code}: ${sent.note}` }),
      )
    tx.record({
      action: 'custody:record',
      subjectKind: 'custody-event',
      subjectId: sent.id,
      topics: ['materials', `item:${itemId}`, ...(sent.kind === 'gap' ? ['deviations'] : [])],
      content: {
        item: { id: itemId, code: row.code },
        act: JSON.parse(JSON.stringify(sent)) as Canonical,
        pieces: pieces.map(({ item, massG }) => ({ id: item.id, code: item.code, massG })),
      },
      rows,
    })
    return (await readIn(tx, itemId))!
  }

  return {
    readIn,

    read: (actor: Actor, id: string): Promise<Item> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const item = await readIn(tx, id)
        if (!item) throw notFound('item')
        return item
      }),

    record: (actor: Actor, itemId: string, sent: RecordAct): Promise<Created<Item>> =>
      createOnce(laboratory, actor, {
        subjectKind: 'custody-event',
        id: sent.id,
        // Sent again later, after a lost answer, it is the same act.
        input: { item: itemId, ...sent, time: { ...sent.time, sentAt: undefined } },
        find: async (tx) => {
          const standing = await findItemOfEvent(tx, sent.id)
          return standing === null ? null : readIn(tx, standing)
        },
        create: (tx) => act(tx, itemId, sent),
      }),
  }
}

function personOf({ membershipId, name }: Actor): Person {
  return { kind: 'person', id: membershipId, name }
}

const actWords: Readonly<Record<string, string>> = {
  received: 'received it',
  taken: 'took it over',
  placed: 'placed it',
  split: 'split it',
  offered: 'offered it to somebody outside',
  accepted: 'recorded that it was accepted outside',
  refused: 'recorded that it stays here',
  sent: 'sent it away',
  returned: 'gave it back',
  disposed: 'disposed of it',
  gap: 'recorded a gap',
}

/** Decided on what stood then; what happened since is told instead of being overrun. */
function refuseOverrun({ itemNow, code, custodyEvents }: ItemRow, { after }: RecordAct): void {
  if ((itemNow?.lastEventId ?? null) === after) return
  const last = custodyEvents.find(({ id }) => id === itemNow?.lastEventId)
  const sentence = last
    ? `Meanwhile ${last.by.name} ${actWords[last.kind] ?? 'did something with it'}. Look at ${code} again.`
    : `Nothing is recorded of ${code} yet. Look at it again.`
  throw new AppError('conflict', sentence, { extra: { stored: last?.id ?? null, sent: after } })
}

/** A chain goes forward in time. */
function refuseEarlier({ itemNow, custodyEvents }: ItemRow, { effectiveAt }: Told): void {
  const last = custodyEvents.find(({ id }) => id === itemNow?.lastEventId)
  if (!last) return
  const lastAt = new Date(last.eventAt.getTime() + Number(last.offsetMs ?? 0))
  // Instants of the device's second and the server's differ by the way between them.
  if (effectiveAt.getTime() >= lastAt.getTime() - 1000) return
  throw invalidField(
    'time.eventAt',
    `${last.by.name} ${actWords[last.kind] ?? 'acted'} ${spanWords((lastAt.getTime() - effectiveAt.getTime()) / 1000)} after the time given: an act is not earlier than the one before it.`,
  )
}

async function placeOf(tx: LaboratoryTransaction, places: PlacesService, sent: RecordAct): Promise<Place | null> {
  if (!('placeId' in sent) || sent.placeId === undefined) return null
  const place = await places.readIn(tx, sent.placeId)
  if (!place) throw invalidField('placeId', 'There is no such place in this laboratory: choose one of the list.')
  return place
}

type MadePiece = NewPiece & { eventId: string }

/** Pieces keep what their item is, and get codes of the laboratory's counter, which is taken last. */
async function piecesOf(
  tx: LaboratoryTransaction,
  materials: MaterialsService,
  parent: ItemRow,
  sent: RecordAct,
  numbers: ActNumbers,
  made: Pieces,
): Promise<MadePiece[]> {
  if (sent.kind !== 'split') return []
  const codes = await materials.nextCodesIn(tx, made.length)
  const { materialKind, sourceName, supplier, lot, receivedOn, name } = parent
  return made.map(({ id }, n) => ({
    eventId: newId(),
    parentId: parent.id,
    massText: sent.pieces[n]!.mass,
    massG: numbers.pieces[n]!,
    item: {
      id,
      kind: sent.pieces[n]!.kind,
      code: codes[n]!,
      name,
      materialKind,
      sourceName,
      supplier,
      lot,
      receivedOn,
      sourceId: parent.sourceId ?? parent.id,
      fraction: sent.fraction || parent.fraction,
      scalpedText: sent.scalped ?? parent.scalpedText,
      scalped: numbers.scalped ?? parent.scalped,
      madeAt: tx.at,
    },
  }))
}

/** The first event of a piece: split off where its item stood. */
function pieceEventOf(piece: MadePiece, told: Told, state: CustodyState): NewCustodyEvent {
  const holder = state.status === 'with' ? state.custodian : null
  const column =
    holder?.kind === 'person' ? { toMemberId: holder.id } : holder?.kind === 'place' ? { toPlaceId: holder.id } : {}
  return {
    id: piece.eventId,
    itemId: piece.item.id,
    kind: 'split',
    ...column,
    ...toldColumns(told),
    massText: piece.massText,
    mass: piece.massG,
  }
}
