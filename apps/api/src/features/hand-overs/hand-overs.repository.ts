import type { Prisma } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'
import { type RowsSql } from '#platform/sql-rows'

const whole = { by: { select: personColumns }, taken: { include: { by: { select: personColumns } } } } as const
export type HandOverRow = Prisma.HandOverGetPayload<{ include: typeof whole }>

/** Who takes one person's work, and what that person offers, follow one another. */
export async function lockHandOvers({ prisma, actor }: LaboratoryTransaction, from: string): Promise<void> {
  await prisma.$executeRaw`select pg_advisory_xact_lock(hashtextextended(${`hand over ${actor.labId} ${from}`}, 0))`
}

export function findHandOver({ prisma, actor }: LaboratoryTransaction, id: string): Promise<HandOverRow | null> {
  return prisma.handOver.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: whole })
}

export function findByHash({ prisma, actor }: LaboratoryTransaction, hash: Buffer): Promise<HandOverRow | null> {
  return prisma.handOver.findUnique({
    where: { labId_codeHash: { labId: actor.labId, codeHash: new Uint8Array(hash) } },
    include: whole,
  })
}

/** The offer that a person made last: the ones before hold no more. */
export async function lastOfferOf({ prisma, actor }: LaboratoryTransaction, byId: string): Promise<string | null> {
  const found = await prisma.handOver.findFirst({
    where: { labId: actor.labId, byId },
    orderBy: [{ writtenAt: 'desc' }, { id: 'desc' }],
    select: { id: true },
  })
  return found?.id ?? null
}

export async function insertHandOver(
  { prisma, actor, at }: LaboratoryTransaction,
  { id, hash, expiresAt }: { id: string; hash: Buffer; expiresAt: Date },
): Promise<void> {
  await prisma.handOver.createMany({
    data: [{ labId: actor.labId, id, codeHash: new Uint8Array(hash), expiresAt, byId: actor.membershipId, at }],
  })
}

export async function insertTaken({ prisma, actor, at }: LaboratoryTransaction, handOverId: string): Promise<void> {
  await prisma.handOverTaken.createMany({ data: [{ labId: actor.labId, handOverId, byId: actor.membershipId, at }] })
}

/** In which oven or bath these tests stand with a load, by their standing acts. */
export async function findStandsIn(sql: RowsSql, testIds: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const rows = await sql.rows<{ testId: string; name: string }>(
    `select distinct on (s.test_id) s.test_id as "testId", i.code || ', ' || i.name as name
       from step_event s
       join load l on l.lab_id = s.lab_id and l.id = s.load_id
       join instrument i on i.lab_id = l.lab_id and i.id = l.instrument_id
      where s.lab_id = $1::uuid and s.test_id = any($2::uuid[]) and s.kind = 'start'
        and not exists (select from step_event later where later.lab_id = s.lab_id and later.supersedes_id = s.id)
        and not exists (select from step_event e where e.lab_id = s.lab_id and e.test_id = s.test_id and e.step_key = s.step_key
              and e.kind = 'end' and not exists (select from step_event later where later.lab_id = e.lab_id and later.supersedes_id = e.id))
      order by s.test_id, s.event_at desc, s.id desc`,
    [sql.actor.labId, testIds],
  )
  return new Map(rows.map(({ testId, name }) => [testId, name]))
}
