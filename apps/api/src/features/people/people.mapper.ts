import type { Role } from '@curebook/contract/common'
import type { Invitation, Person } from '@curebook/contract/people'
import type { Invitation as InvitationRow, Membership } from '@curebook/database/client'

export function toPerson(row: Membership): Person {
  return {
    id: row.id,
    name: row.name,
    initials: row.initials,
    roles: row.roles as Role[],
    clientId: row.clientId,
    validFrom: row.validFrom.toISOString(),
    validUntil: row.validUntil?.toISOString() ?? null,
    hasAccount: row.accountId !== null,
    version: row.version,
  }
}

type InvitationFacts = Pick<
  InvitationRow,
  'id' | 'email' | 'name' | 'roles' | 'clientId' | 'at' | 'expiresAt' | 'acceptedAt' | 'revokedAt'
>

/** An invitation as it stands at an instant; its token is nowhere to be had. */
export function toInvitation(row: InvitationFacts, at: Date): Invitation {
  return {
    id: row.id,
    email: row.email,
    name: row.name,
    roles: row.roles as Role[],
    clientId: row.clientId,
    state: row.acceptedAt ? 'accepted' : row.revokedAt ? 'revoked' : row.expiresAt <= at ? 'expired' : 'open',
    invitedAt: row.at.toISOString(),
    expiresAt: row.expiresAt.toISOString(),
  }
}
