import type { Prisma } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'

const withPerson = {
  by: { select: personColumns },
  supersededBy: { select: { id: true } },
} satisfies Prisma.InstrumentLineInclude

export type LineRow = Prisma.InstrumentLineGetPayload<{ include: typeof withPerson }>

/** How an instrument sent and sends, the latest first. Ids in the order of making settle two of one moment. */
export function findLines({ prisma, actor }: LaboratoryTransaction, instrumentId: string): Promise<LineRow[]> {
  return prisma.instrumentLine.findMany({
    where: { labId: actor.labId, instrumentId },
    include: withPerson,
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
  })
}

export type NewLine = {
  readonly id: string
  readonly instrumentId: string
  readonly baudRate: number
  readonly dataBits: number
  readonly parity: string
  readonly stopBits: number
  readonly example: string
  readonly shown: string
  readonly supersedesId: string | null
  readonly reason: string | null
}

export async function insertLine({ prisma, actor, at }: LaboratoryTransaction, line: NewLine): Promise<void> {
  await prisma.instrumentLine.createMany({
    data: [{ ...line, labId: actor.labId, byId: actor.membershipId, at }],
  })
}
