import type { Database } from '@curebook/database/open-database'
import type { LaboratoryTransaction } from '#platform/laboratory'

/** People of the laboratory whose membership holds now, by their accounts. */
export async function membersWithAccounts({ prisma, actor, at }: LaboratoryTransaction) {
  const rows = await prisma.membership.findMany({
    where: {
      labId: actor.labId,
      accountId: { not: null },
      validFrom: { lte: at },
      OR: [{ validUntil: null }, { validUntil: { gt: at } }],
    },
    select: { id: true, accountId: true, name: true, initials: true },
  })
  return new Map(rows.map(({ accountId, ...member }) => [accountId!, member]))
}

/** Orders to cut off one session follow one another. */
export async function lockSession({ prisma }: LaboratoryTransaction, sessionId: string): Promise<void> {
  await prisma.$executeRaw`select pg_advisory_xact_lock(hashtextextended(${`cut off ${sessionId}`}, 0))`
}

/** The accounts of this laboratory that an earlier order cut off on the device of this session; null without one. */
export async function findCutOff(
  { prisma, actor }: LaboratoryTransaction,
  sessionId: string,
): Promise<string[] | null> {
  const entry = await prisma.ledgerEntry.findFirst({
    where: { labId: actor.labId, subjectKind: 'device-session', subjectId: sessionId },
    select: { content: true },
  })
  if (!entry) return null
  const { content } = JSON.parse(entry.content) as { content: { accounts: string[] } }
  return content.accounts
}

export type LiveSession = {
  readonly id: string
  readonly accountId: string
  readonly agent: string | null
  readonly address: string | null
  readonly createdAt: Date
  readonly lastSeenAt: Date
  /** The device that has it; null for one that nobody shares. */
  readonly deviceId: string | null
  /** Accounts that signed in on its device by password, whoever they belong to. */
  readonly admitted: readonly string[]
}

/** The rows of sessions that live, in real time, over the identity login. */
export function createSessionRows({ identityPool: pool }: Pick<Database, 'identityPool'>) {
  return {
    /** 12 hours at most, one hour idle: as the function live_session() judges them. */
    async ofAccounts(accounts: readonly string[]): Promise<readonly LiveSession[]> {
      const { rows } = await pool.query<LiveSession>(
        `select s.id, s.user_id as "accountId", s.user_agent as agent, s.ip_address as address, s.created_at as "createdAt",
                s.last_seen_at as "lastSeenAt", (select d.id from identity_device d where d.session_id = s.id limit 1) as "deviceId",
                array(select p.user_id::text from identity_device d join identity_device_person p on p.device_id = d.id
                       where d.session_id = s.id) as admitted
           from identity_session s
          where s.user_id = any($1::uuid[])
            and least(s.expires_at, s.created_at + interval '12 hours', s.last_seen_at + interval '1 hour') > clock_timestamp()
          order by s.last_seen_at desc, s.id`,
        [accounts],
      )
      return rows
    },
    /**
     * Ends the way back by PIN of these accounts on the device of a session, then the session: whoever changes person at this
     * moment is waited for, and the session that took its place on a device that is known ends with it. Done again it changes
     * nothing.
     */
    async end(sessionId: string, accounts: readonly string[], deviceId: string | null = null): Promise<void> {
      await pool.query(
        `delete from identity_device_person p using identity_device d
          where (d.session_id = $1 or d.id = $3) and p.device_id = d.id and p.user_id = any($2::uuid[])`,
        [sessionId, accounts, deviceId],
      )
      await pool.query(
        `delete from identity_session s
          where (s.id = $1 or s.id = (select d.session_id from identity_device d where d.id = $3)) and s.user_id = any($2::uuid[])`,
        [sessionId, accounts, deviceId],
      )
    },
  }
}
