import type { CorrectReceipt, Item } from '@curebook/contract/custody'
import type { MaterialKind, NewReceipt } from '@curebook/contract/materials'
import { accountOf } from '@curebook/trade/custody/drawn'
import { correctReceipt } from '@curebook/trade/custody/receipt-correction'
import type { MaterialsService } from '#features/materials/materials.service'
import type { Actor } from '#platform/actor'
import type { Canonical } from '#platform/canonical-json'
import { createOnce, type Created } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { dayOf, digitsOf } from '#platform/row-values'
import { rowsSqlOf } from '#platform/sql-rows'
import { findItem, findItemOfEvent, lockItem, type CustodyEventRow, type ItemRow } from './custody.repository.ts'
import type { CustodyService } from './custody.service.ts'
import { findMoves } from './drawn.repository.ts'
import type { PlacesService } from './places.service.ts'
import { findSplitOff, insertCorrection, moveStanding } from './receipt-correction.repository.ts'

export type ReceiptCorrectionService = ReturnType<typeof createReceiptCorrectionService>
type Needs = { laboratory: Laboratory; materials: MaterialsService; places: PlacesService; custody: CustodyService }

/**
 * Puts a receipt right: another row in the place of the one that stands, with the reason. What happened to the sample since
 * stays as it was told; what is left of it follows.
 */
export function createReceiptCorrectionService({ laboratory, materials, places, custody }: Needs) {
  const correct = async (tx: LaboratoryTransaction, itemId: string, sent: CorrectReceipt): Promise<Item> => {
    await lockItem(tx, itemId)
    const row = await findItem(tx, itemId)
    if (!row) throw notFound('item')
    const first = row.custodyEvents.find(({ supersedesId }) => supersedesId === null)
    if (row.kind !== 'sample' || first?.kind !== 'received')
      throw new AppError('refused-by-rule', `${row.code} was made here: only what was received has a receipt.`)
    const stands = standingFor(row.custodyEvents, first)
    refuseOverrun(stands, sent)
    const place = sent.receipt.placeId === undefined ? null : await places.readIn(tx, sent.receipt.placeId)
    if (sent.receipt.placeId !== undefined && !place)
      throw invalidField('receipt.placeId', 'There is no such place in this laboratory: choose one of the list.')
    const { id, name } = { id: first.byId, name: first.by.name }
    const found = materials.readReceived(arrived(row, sent.receipt), { kind: 'person', id, name }, place)
    const standingG = await standingMass(tx, row, found.massG, stands)
    const ledgerRow = await insertCorrection(tx, row, stands, {
      id: sent.id,
      reason: sent.reason,
      condition: sent.receipt.condition,
      sealIntact: sent.receipt.sealIntact,
      temperatureText: sent.receipt.temperature,
      temperature: found.temperature,
      massG: found.massG,
      standingG,
      to: found.custodian,
    })
    await materials.insertReceiptIn(tx, { itemId, receipt: sent.receipt, custodyEventId: sent.id, found })
    if (row.itemNow && row.itemNow.status !== 'disposed') {
      const to = row.itemNow.lastEventId === first.id ? found.custodian : null
      await moveStanding(tx, itemId, { standingG, to })
    }
    tx.record({
      action: 'receipt:correct',
      subjectKind: 'custody-event',
      subjectId: sent.id,
      topics: ['materials', `item:${itemId}`],
      content: {
        item: { id: itemId, code: row.code },
        supersedes: stands.id,
        reason: sent.reason,
        receipt: JSON.parse(JSON.stringify(sent.receipt)) as Canonical,
      },
      rows: [ledgerRow],
    })
    return (await custody.readIn(tx, itemId))!
  }

  return {
    correct: (actor: Actor, itemId: string, sent: CorrectReceipt): Promise<Created<Item>> =>
      createOnce(laboratory, actor, {
        subjectKind: 'custody-event',
        id: sent.id,
        input: { item: itemId, ...sent },
        find: async (tx) => {
          const standing = await findItemOfEvent(tx, sent.id)
          return standing === null ? null : custody.readIn(tx, standing)
        },
        create: (tx) => correct(tx, itemId, sent),
      }),
  }
}

/** The last of the chain that begins with the receipt as it was told first. */
function standingFor(events: readonly CustodyEventRow[], event: CustodyEventRow): CustodyEventRow {
  const next = events.find(({ supersedesId }) => supersedesId === event.id)
  return next ? standingFor(events, next) : event
}

function refuseOverrun(stands: CustodyEventRow, { supersedesId }: CorrectReceipt): void {
  if (stands.id === supersedesId) return
  const sentence =
    stands.supersedesId === null
      ? 'This receipt was not corrected yet. Look at it again.'
      : `Meanwhile ${stands.by.name} corrected the receipt: ${stands.reason}. Look at it again.`
  throw new AppError('conflict', sentence, { extra: { stored: stands.id, sent: supersedesId } })
}

function arrived(row: ItemRow, receipt: NewReceipt) {
  return {
    kind: row.materialKind as MaterialKind,
    receivedOn: dayOf(row.receivedOn ?? row.madeAt),
    sourceName: row.sourceName ?? '',
    supplier: row.supplier ?? '',
    receipt,
  }
}

/** What stands under its code then. What was weighed anew since keeps that: it came back, or was put on the balance before a split. */
async function standingMass(
  tx: LaboratoryTransaction,
  row: ItemRow,
  massG: string | null,
  stands: CustodyEventRow,
): Promise<string | null> {
  const moves = await findMoves(rowsSqlOf(tx), [row.id])
  const outcome = correctReceipt(massG, { ...accountOf(moves.get(row.id)!), ...(await findSplitOff(tx, row.id)) })
  const recorded = row.itemNow?.mass ? digitsOf(row.itemNow.mass) : null
  // Nothing was told of the mass and nothing is: what a split weighed since stands as it is.
  if (massG === null && stands.mass === null) return recorded
  if (!outcome.ok) throw invalidField('receipt.containers', outcome.sentence)
  if (row.itemNow?.status === 'disposed') return null
  const weighedAnew = row.custodyEvents.some(
    ({ supersedesId, kind, mass, weighed, id }) =>
      (supersedesId === null && kind === 'received' && mass !== null && id !== row.custodyEvents[0]?.id) ||
      (kind === 'split' && weighed !== null),
  )
  return weighedAnew ? recorded : outcome.standingG
}
