import type { AddCalibration, CreateInstrument } from '@curebook/contract/instruments'
import type { Prisma } from '@curebook/database/client'
import { digestOf } from '#platform/canonical-json'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { dateOfDay, personColumns } from '#platform/row-values'

const withRecords = {
  calibrations: { where: { supersededBy: { is: null } }, orderBy: [{ doneOn: 'asc' }, { at: 'asc' }, { id: 'asc' }] },
  instrumentFactors: {
    include: { by: { select: personColumns }, supersededBy: { select: { id: true } } },
    orderBy: [{ at: 'desc' }, { effectiveFrom: 'desc' }, { id: 'desc' }],
  },
} satisfies Prisma.InstrumentInclude

export type InstrumentRow = Prisma.InstrumentGetPayload<{ include: typeof withRecords }>
export type FactorRow = InstrumentRow['instrumentFactors'][number]

export function findInstruments({ prisma, actor }: LaboratoryTransaction) {
  return prisma.instrument.findMany({
    where: { labId: actor.labId, withdrawnAt: null },
    include: withRecords,
    orderBy: [{ code: 'asc' }],
  })
}

export function findInstrument({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.instrument.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: withRecords })
}

export async function isWithdrawn({ prisma, actor }: LaboratoryTransaction, id: string): Promise<boolean> {
  return (await prisma.instrument.count({ where: { labId: actor.labId, id, withdrawnAt: { not: null } } })) > 0
}

/**
 * Holds the instrument until the end of the transaction: edits, and two factors of one unit, follow one another. What is done
 * with it at the bench meanwhile is not held up.
 */
export async function lockInstrument({ prisma, actor }: LaboratoryTransaction, id: string): Promise<void> {
  await prisma.$queryRaw`select id from instrument where lab_id = ${actor.labId}::uuid and id = ${id}::uuid for no key update`
}

export async function insertInstrument(
  { prisma, actor }: LaboratoryTransaction,
  input: CreateInstrument,
): Promise<void> {
  const { id, code, kind, name, serial, place, capacity, capacityUnit, resolution } = input
  await prisma.instrument.createMany({
    data: [
      {
        labId: actor.labId,
        id,
        code,
        kind,
        name,
        serial,
        placeText: place,
        range: capacity,
        unit: capacityUnit,
        resolution,
        state: 'in-service',
      },
    ],
  })
}

/** Under the lock of `lockInstrument`, which holds the version that was looked at. */
export async function updateInstrument(
  { prisma, actor }: LaboratoryTransaction,
  id: string,
  data: Omit<Prisma.InstrumentUncheckedUpdateManyInput, 'labId' | 'id' | 'version'>,
): Promise<void> {
  await prisma.instrument.updateMany({
    where: { labId: actor.labId, id },
    data: { ...data, version: { increment: 1 } },
  })
}

export type NewFactor = {
  id: string
  instrumentId: string
  key: 'area' | 'frame'
  valueText: string
  value: string
  unit: string
  measuredArea: string | null
  edition: string
  effectiveFrom: string
  supersedesId: string | null
  reason: string | null
}

export async function insertFactor({ prisma, actor, at }: LaboratoryTransaction, factor: NewFactor): Promise<void> {
  const { key, value, unit, measuredArea, edition, effectiveFrom } = factor
  const dig = new Uint8Array(
    digestOf({ instrument: factor.instrumentId, key, value, unit, measuredArea, edition, effectiveFrom }),
  )
  await prisma.instrumentFactor.createMany({
    data: [
      { ...factor, labId: actor.labId, effectiveFrom: dateOfDay(effectiveFrom), dig, byId: actor.membershipId, at },
    ],
  })
}

export async function insertCalibration(
  { prisma, actor, at }: LaboratoryTransaction,
  instrumentId: string,
  input: AddCalibration,
): Promise<void> {
  const { id, doneOn, validUntil, certificate, passed } = input
  await prisma.calibration.createMany({
    data: [
      {
        labId: actor.labId,
        id,
        instrumentId,
        certificate,
        passed,
        asFound: '{}',
        asLeft: '{}',
        doneOn: dateOfDay(doneOn),
        validUntil: dateOfDay(validUntil),
        byId: actor.membershipId,
        at,
      },
    ],
  })
}
