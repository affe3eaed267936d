import type { Role } from '@curebook/contract/common'
import type { Database } from '@curebook/database/open-database'

export type MembershipRow = {
  lab_id: string
  short_name: string
  laboratory: string
  membership_id: string
  name: string
  initials: string
  roles: Role[]
  client_id: string | null
}

/** The laboratories that the session's person may enter at an instant of the domain's clock. */
export async function readMemberships({ pool }: Database, token: string, at: Date): Promise<MembershipRow[]> {
  const { rows } = await pool.query<MembershipRow>('select * from memberships_of($1, $2)', [token, at])
  return rows
}
