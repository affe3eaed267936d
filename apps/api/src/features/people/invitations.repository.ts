import type { Role } from '@curebook/contract/common'
import type { Prisma } from '@curebook/database/client'
import type { Database } from '@curebook/database/open-database'
import type { LaboratoryTransaction } from '#platform/laboratory'

export type OfferRow = {
  lab_id: string
  invitation_id: string
  short_name: string
  laboratory: string
  email: string
  name: string
  roles: Role[]
  client_id: string | null
  expires_at: Date
  accepted_at: Date | null
  revoked_at: Date | null
}

/** The invitation behind a token, of whatever laboratory. */
export async function findOffer({ pool }: Database, tokenHash: Buffer): Promise<OfferRow | undefined> {
  const { rows } = await pool.query<OfferRow>('select * from invitation_by_token($1)', [tokenHash])
  return rows[0]
}

export function listInvitations({ prisma, actor }: LaboratoryTransaction) {
  return prisma.invitation.findMany({ where: { labId: actor.labId }, orderBy: [{ at: 'desc' }, { id: 'asc' }] })
}

export function findInvitation({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.invitation.findUnique({ where: { labId_id: { labId: actor.labId, id } } })
}

export async function insertInvitation(
  { prisma }: LaboratoryTransaction,
  data: Prisma.InvitationCreateManyInput,
): Promise<void> {
  await prisma.invitation.createMany({ data: [data] })
}

/** Marks an open invitation as accepted or revoked; false when it is no longer open. Two at once: one of them gets true. */
export async function closeInvitation(
  { prisma, actor }: LaboratoryTransaction,
  id: string,
  data: { acceptedAt: Date; membershipId: string } | { revokedAt: Date },
): Promise<boolean> {
  const { count } = await prisma.invitation.updateMany({
    where: { labId: actor.labId, id, acceptedAt: null, revokedAt: null },
    data: { ...data, version: { increment: 1 } },
  })
  return count === 1
}
