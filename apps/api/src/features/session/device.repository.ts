import type { Database } from '@curebook/database/open-database'
import { newId } from '#platform/uuid'

export type Device = { readonly id: string; readonly createdAt: Date }

/** A device's session lasts as long as a sign-in: 12 hours at most, one hour without an act of anybody (design: accounts). */
const alive = `d.created_at > clock_timestamp() - interval '12 hours'
  and greatest(d.last_seen_at, (select s.last_seen_at from identity_session s where s.id = d.session_id)) > clock_timestamp() - interval '1 hour'`

const handToSql = `
  with before as (select session_id as id from identity_device where id = $1),
       gone as (delete from identity_session s using before where s.id = before.id and s.id <> $2)
  update identity_device set session_id = $2, last_seen_at = clock_timestamp() where id = $1`

/** The rows of shared devices, in real time, over the identity login. */
export function createDeviceRows({ identityPool: pool }: Pick<Database, 'identityPool'>) {
  return {
    async find(tokenHash: Buffer): Promise<Device | null> {
      const { rows } = await pool.query<Device>(
        `select d.id, d.created_at as "createdAt" from identity_device d where d.token_hash = $1 and ${alive}`,
        [tokenHash],
      )
      return rows[0] ?? null
    },
    async make(tokenHash: Buffer): Promise<Device> {
      const { rows } = await pool.query<Device>(
        `insert into identity_device (id, token_hash, created_at, last_seen_at) values ($1, $2, clock_timestamp(), clock_timestamp())
         returning id, created_at as "createdAt"`,
        [newId(), tokenHash],
      )
      return rows[0]!
    },
    /** A person proved the password on it: they may come back by PIN, and its session is theirs now. */
    async admit(deviceId: string, accountId: string, sessionId: string): Promise<void> {
      await pool.query(
        `insert into identity_device_person (device_id, user_id, signed_in_at) values ($1, $2, clock_timestamp())
         on conflict (device_id, user_id) do update set signed_in_at = excluded.signed_in_at, failed = 0`,
        [deviceId, accountId],
      )
      await this.handTo(deviceId, sessionId)
    },
    /** The device has this session now; one that it had before is reached by nobody any more, and ends. */
    async handTo(deviceId: string, sessionId: string): Promise<void> {
      await pool.query(handToSql, [deviceId, sessionId])
    },
    async leave(deviceId: string, accountId: string): Promise<void> {
      await pool.query('delete from identity_device_person where device_id = $1 and user_id = $2', [
        deviceId,
        accountId,
      ])
    },
    /** Accounts that may come back by PIN. */
    async admitted(deviceId: string, mostFailed: number): Promise<readonly string[]> {
      const { rows } = await pool.query<{ id: string }>(
        `select p.user_id as id from identity_device_person p join identity_pin n on n.user_id = p.user_id
          where p.device_id = $1 and p.failed < $2`,
        [deviceId, mostFailed],
      )
      return rows.map(({ id }) => id)
    },
    /** Counts an attempt before it is looked at. @returns the PIN's hash, or null when this person may not come back by PIN */
    async countAttempt(deviceId: string, accountId: string, mostFailed: number): Promise<string | null> {
      const { rows } = await pool.query<{ hash: string }>(
        `update identity_device_person p set failed = p.failed + 1 from identity_pin n
          where n.user_id = p.user_id and p.device_id = $1 and p.user_id = $2 and p.failed < $3 returning n.hash`,
        [deviceId, accountId, mostFailed],
      )
      return rows[0]?.hash ?? null
    },
    async forgive(deviceId: string, accountId: string): Promise<void> {
      await pool.query('update identity_device_person set failed = 0 where device_id = $1 and user_id = $2', [
        deviceId,
        accountId,
      ])
    },
    /**
     * One person's session gives way to another's, and the device has that one now. Whoever cuts the device off, signs these
     * people out or sets a new password takes the way by PIN first and the sessions then: either they end the new session too,
     * or nothing is begun here.
     * @returns false where the way by PIN or the session before ended meanwhile
     */
    async replaceSession(
      deviceId: string,
      ended: string,
      made: { accountId: string; token: string; expiresAt: Date; address: string; agent: string | undefined },
    ): Promise<boolean> {
      const id = newId()
      const client = await pool.connect()
      let broken: Error | undefined
      try {
        await client.query('begin')
        const way = await client.query(
          'select from identity_device_person where device_id = $1 and user_id = $2 for share',
          [deviceId, made.accountId],
        )
        const gone = await client.query('delete from identity_session where id = $1', [ended])
        const replaces = way.rowCount === 1 && gone.rowCount === 1
        if (replaces) {
          await client.query(
            `insert into identity_session (id, token, user_id, expires_at, ip_address, user_agent, created_at, updated_at)
             values ($1, $2, $3, $4, $5, $6, clock_timestamp(), clock_timestamp())`,
            [id, made.token, made.accountId, made.expiresAt, made.address, made.agent ?? null],
          )
          await client.query(handToSql, [deviceId, id])
        }
        await client.query(replaces ? 'commit' : 'rollback')
        return replaces
      } catch (error) {
        await client.query('rollback').catch((cause: Error) => void (broken = cause))
        throw error
      } finally {
        client.release(broken)
      }
    },
    async setPin(accountId: string, hash: string): Promise<void> {
      await pool.query(
        `insert into identity_pin (user_id, hash, updated_at) values ($1, $2, clock_timestamp())
         on conflict (user_id) do update set hash = excluded.hash, updated_at = excluded.updated_at`,
        [accountId, hash],
      )
    },
    async endPin(accountId: string): Promise<void> {
      await pool.query('delete from identity_pin where user_id = $1', [accountId])
    },
    async hasPin(accountId: string): Promise<boolean> {
      return (await pool.query('select from identity_pin where user_id = $1', [accountId])).rowCount === 1
    },
  }
}
