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

/** Holds the instrument until the end of the transaction, so that two factors of one unit follow one another. */
export async function lockInstrument({ prisma, actor }: LaboratoryTransaction, id: string): Promise<void> {
  await prisma.$queryRaw`select id from instrument where lab_id = ${actor.labId}::uuid and id = ${id}::uuid for update`
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

/** Whether the edit met the version that it started from. */
export async function updateInstrument(
  { prisma, actor }: LaboratoryTransaction,
  id: string,
  version: number,
  data: Omit<Prisma.InstrumentUncheckedUpdateManyInput, 'labId' | 'id' | 'version'>,
): Promise<boolean> {
  const { count } = await prisma.instrument.updateMany({
    where: { labId: actor.labId, id, version },
    data: { ...data, version: { increment: 1 } },
  })
  return count === 1
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
