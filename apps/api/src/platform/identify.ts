import type { Role } from '@curebook/contract/common'
import type { Database } from '@curebook/database/open-database'
import type { Actor, SignedIn } from './actor.ts'
import type { Clock } from './clock.ts'

export type Identity = { signedIn: SignedIn; actor: Actor | null }

type EnterRow = {
  account_id: string
  session_id: string
  expires_at: Date
  membership_id: string | null
  name: string | null
  initials: string | null
  roles: Role[] | null
  client_id: string | null
}

export type Identify = ReturnType<typeof createIdentify>

/**
 * Who sends a request: one query that knows session, membership and roles as they are now, so that a revoked session or a
 * role taken away ends with the next request. Null = not signed in; actor null = not a member of this laboratory.
 */
export function createIdentify({ database, clock }: { database: Database; clock: Clock }) {
  return async function identify(token: string, labId: string | null): Promise<Identity | null> {
    const { rows } = await database.pool.query<EnterRow>({
      name: 'enter',
      text: 'select * from enter($1, $2, $3)',
      values: [token, labId, clock.now()],
    })
    const [row] = rows
    if (!row) return null
    const signedIn = { accountId: row.account_id, sessionId: row.session_id, token, expiresAt: row.expires_at }
    if (labId === null || row.membership_id === null) return { signedIn, actor: null }
    return {
      signedIn,
      actor: {
        kind: 'person',
        accountId: row.account_id,
        sessionId: row.session_id,
        labId,
        membershipId: row.membership_id,
        name: row.name!,
        initials: row.initials!,
        roles: row.roles!,
        clientId: row.client_id,
      },
    }
  }
}
