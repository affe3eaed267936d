import type { Role } from '@curebook/contract/common'

/** A signed-in person in one laboratory: who every record of theirs names. */
export type Actor = {
  kind: 'person'
  accountId: string
  sessionId: string | null
  labId: string
  membershipId: string
  name: string
  initials: string
  roles: Role[]
  /** Set for role client only: the client whose work they may see. */
  clientId: string | null
}

/** Acts by the product itself: jobs, first run, accepting an invitation. */
export type SystemActor = { kind: 'system'; labId: string }

export type AnyActor = Actor | SystemActor

export function systemActor(labId: string): SystemActor {
  return { kind: 'system', labId }
}

/** A signed-in account, before any laboratory is entered. */
export type SignedIn = { accountId: string; sessionId: string; token: string; expiresAt: Date }
