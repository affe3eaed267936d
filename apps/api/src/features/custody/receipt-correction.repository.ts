import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { LaboratoryTransaction } from '#platform/laboratory'
import type { CustodyEventRow, ItemRow } from './custody.repository.ts'

/** What was set apart of an item, and what was lost when it was split, in grams. */
export async function findSplitOff(
  { prisma, actor }: LaboratoryTransaction,
  itemId: string,
): Promise<{ piecesG: string; lostG: string }> {
  const [row] = await prisma.$queryRaw<[{ piecesG: string; lostG: string }]>`
    select coalesce((select trim_scale(sum(p.mass)) from item_parent p
                       join item i on i.lab_id = p.lab_id and i.id = p.child_id and i.kind in ('split', 'bag')
                      where p.lab_id = ${actor.labId}::uuid and p.parent_id = ${itemId}::uuid), 0)::text as "piecesG",
           coalesce((select trim_scale(sum(e.loss)) from custody_event e
                      where e.lab_id = ${actor.labId}::uuid and e.item_id = ${itemId}::uuid), 0)::text as "lostG"`
  return row
}

type Found = {
  readonly id: string
  readonly reason: string
  readonly condition: string | undefined
  readonly sealIntact: boolean | undefined
  readonly temperatureText: string | undefined
  readonly temperature: string | null
  readonly massG: string | null
  readonly standingG: string | null
  readonly to: { readonly toMemberId: string } | { readonly toPlaceId: string }
}

/** The receipt as it should have been told, in the place of the event that stands for it. */
export async function insertCorrection(
  { prisma, actor, at }: LaboratoryTransaction,
  { itemNow }: ItemRow,
  stands: CustodyEventRow,
  found: Found,
): Promise<LedgerRow> {
  const { itemId, kind, fromParty, eventAt, eventFrom, sentAt, offsetMs, timeNote, note } = stands
  const { to, massG, standingG, ...told } = found
  const row = {
    labId: actor.labId,
    itemId,
    kind,
    fromParty,
    ...to,
    eventAt,
    eventFrom,
    sentAt,
    offsetMs,
    timeNote,
    note,
    ...told,
    mass: massG,
    supersedesId: stands.id,
    afterId: itemNow?.lastEventId ?? null,
    standingMass: standingG,
    byId: actor.membershipId,
    at,
  }
  await prisma.custodyEvent.createMany({ data: [row] })
  return ledgerContentOf('custody_event', row)
}

/** Moves what is left of the item, and who has it where the receipt is its last act. */
export async function moveStanding(
  { prisma, actor }: LaboratoryTransaction,
  itemId: string,
  { standingG, to }: { standingG: string | null; to: Found['to'] | null },
): Promise<void> {
  const holder =
    to === null
      ? {}
      : 'toPlaceId' in to
        ? { placeId: to.toPlaceId, custodianId: null }
        : { placeId: null, custodianId: to.toMemberId }
  await prisma.itemNow.updateMany({ where: { labId: actor.labId, itemId }, data: { mass: standingG, ...holder } })
}
