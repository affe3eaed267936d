import type { CheckKind } from '@curebook/contract/instrument-check-kinds'
import type { Prisma } from '@curebook/database/client'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'
import type { Told } from '#platform/told-time'
import { newId } from '#platform/uuid'

const withReading = {
  readings: { select: { typed: true, value: true, eventAt: true, offsetMs: true, note: true } },
  by: { select: personColumns },
  supersededBy: { select: { id: true } },
} satisfies Prisma.InstrumentCheckInclude

export type CheckRow = Prisma.InstrumentCheckGetPayload<{ include: typeof withReading }>

/** The latest checks of an instrument, in the order of entry; those without bounds are of no use here. */
export async function findChecks(
  { prisma, actor }: LaboratoryTransaction,
  instrumentId: string,
  id?: string,
): Promise<CheckRow[]> {
  const rows = await prisma.instrumentCheck.findMany({
    where: { labId: actor.labId, instrumentId, ...(id === undefined ? {} : { id }) },
    include: withReading,
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: 500,
  })
  return rows.toReversed()
}

export type NewCheck = {
  readonly id: string
  readonly instrumentId: string
  readonly kind: CheckKind
  readonly nominal: string
  readonly nominalText: string
  readonly tolerance: string
  readonly toleranceText: string
  readonly unit: string
  readonly source: string
  readonly reference: string | null
  readonly passed: boolean
  readonly supersedesId: string | null
  readonly reason: string | null
}
export type CheckedReading = { readonly typed: string; readonly value: string; readonly requestDig: Buffer }

/** Writes a check and what was read at it. @returns the reading's row for the ledger */
export async function insertCheck(
  { prisma, actor, at }: LaboratoryTransaction,
  check: NewCheck,
  { typed, value, requestDig }: CheckedReading,
  told: Told,
): Promise<LedgerRow> {
  const { labId, membershipId: byId } = actor
  await prisma.instrumentCheck.createMany({ data: [{ ...check, labId, byId, at }] })
  const { eventAt, eventFrom, sentAt, receivedAt, offsetMs, note } = told
  const row = {
    labId,
    id: newId(),
    instrumentCheckId: check.id,
    stepKey: 'check',
    key: check.kind,
    repeat: 1,
    kind: 'number',
    typed,
    value,
    unit: check.unit,
    eventAt,
    eventFrom,
    sentAt,
    receivedAt,
    offsetMs,
    transcribed: eventFrom === 'paper',
    confirmedOdd: false,
    actorKind: 'person',
    requestDig: new Uint8Array(requestDig),
    note,
    byId,
    at,
  }
  await prisma.reading.createMany({ data: [row] })
  return ledgerContentOf('reading', row)
}
