import type { Prisma } from '@curebook/database/client'
import type { Database } from '@curebook/database/open-database'
import type { AnyActor } from '#platform/actor'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns } from '#platform/row-values'

type Transaction = LaboratoryTransaction<AnyActor>

/** Pairing, a new code and the end of one screen follow one another. */
export async function lockScreen({ prisma }: Transaction, id: string): Promise<void> {
  await prisma.$executeRaw`select pg_advisory_xact_lock(hashtextextended(${`wall screen ${id}`}, 0))`
}

const whole = {
  by: { select: personColumns },
  wallCodes: { orderBy: [{ writtenAt: 'desc' }, { id: 'desc' }], include: { wallPairing: true } },
  wallEnd: { include: { by: { select: personColumns } } },
  wallSeen: true,
} as const satisfies Prisma.WallScreenInclude

/** A screen with its codes, the last one first. */
export type ScreenRow = Prisma.WallScreenGetPayload<{ include: typeof whole }>

export function listScreens({ prisma, actor }: Transaction): Promise<ScreenRow[]> {
  return prisma.wallScreen.findMany({
    where: { labId: actor.labId },
    include: whole,
    orderBy: [{ writtenAt: 'desc' }, { id: 'asc' }],
  })
}

export function findScreen({ prisma, actor }: Transaction, id: string): Promise<ScreenRow | null> {
  return prisma.wallScreen.findUnique({ where: { labId_id: { labId: actor.labId, id } }, include: whole })
}

/** Which screen a code of this id was made for, if any. */
export async function findScreenOfCode({ prisma, actor }: Transaction, id: string): Promise<string | null> {
  const found = await prisma.wallCode.findUnique({
    where: { labId_id: { labId: actor.labId, id } },
    select: { screenId: true },
  })
  return found?.screenId ?? null
}

export async function insertScreen(
  { prisma, actor, at }: LaboratoryTransaction,
  { id, name }: { id: string; name: string },
): Promise<void> {
  await prisma.wallScreen.createMany({ data: [{ labId: actor.labId, id, name, byId: actor.membershipId, at }] })
}

export async function insertCode(
  { prisma, actor, at }: LaboratoryTransaction,
  { id, screenId, hash, expiresAt }: { id: string; screenId: string; hash: Buffer; expiresAt: Date },
): Promise<void> {
  await prisma.wallCode.createMany({
    data: [
      {
        labId: actor.labId,
        id,
        screenId,
        codeHash: new Uint8Array(hash),
        expiresAt,
        byId: actor.membershipId,
        at,
      },
    ],
  })
}

export async function insertPairing({ prisma, actor, at }: Transaction, codeId: string, keyHash: Buffer) {
  await prisma.wallPairing.createMany({
    data: [{ labId: actor.labId, codeId, keyHash: new Uint8Array(keyHash), at }],
  })
}

export async function insertEnd({ prisma, actor, at }: LaboratoryTransaction, screenId: string): Promise<void> {
  await prisma.wallEnd.createMany({ data: [{ labId: actor.labId, screenId, byId: actor.membershipId, at }] })
}

export type CodeHolder = { readonly labId: string; readonly screenId: string; readonly codeId: string }

/** The screen that a code was made for, of whatever laboratory. */
export async function findByCode({ pool }: Database, hash: Buffer): Promise<CodeHolder | null> {
  const { rows } = await pool.query<CodeHolder>(
    'select lab_id as "labId", screen_id as "screenId", code_id as "codeId" from wall_screen_by_code($1)',
    [hash],
  )
  return rows[0] ?? null
}

export type KeyHolder = {
  readonly labId: string
  readonly screenId: string
  readonly name: string
  readonly holds: boolean
}

/** The screen behind a browser's key, of whatever laboratory. */
export async function findByKey({ pool }: Database, hash: Buffer): Promise<KeyHolder | null> {
  const { rows } = await pool.query<KeyHolder>(
    'select lab_id as "labId", screen_id as "screenId", name, holds from wall_screen_by_key($1)',
    [hash],
  )
  return rows[0] ?? null
}
