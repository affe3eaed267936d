import type { Pool } from 'pg'
import { AppError } from './problem.ts'

export type AttemptLimits = ReturnType<typeof createAttemptLimits>

/** NIST SP 800-63B-4, 3.2.2: at most 100 failed attempts in a row for an account. */
const mostInARow = 100
const mostFromAddress = 100
const addressWindowMinutes = 15

/**
 * Counts attempts to prove an account, before the proof is looked at, so that attempts sent together count too. After five in
 * a row each waits longer than the one before (half a minute, doubling to an hour); after 100 the account waits for its new
 * password. Kept in the database: every process counts the same, in real time.
 */
export function createAttemptLimits({ pool }: { pool: Pool }) {
  async function countAccount(email: string): Promise<void> {
    const { rows } = await pool.query<{ count: number }>(
      `insert into identity_rate as r (key, count, window_start) values ($1, 1, clock_timestamp())
       on conflict (key) do update set count = r.count + 1, window_start = clock_timestamp(),
         blocked_until = case
           when r.count + 1 >= ${mostInARow} then 'infinity'::timestamptz
           when r.count + 1 >= 5 then clock_timestamp() + least(interval '1 hour', interval '30 seconds' * power(2, r.count - 4))
         end
       where r.blocked_until is null or r.blocked_until <= clock_timestamp()
       returning count`,
      [keyOf(email)],
    )
    if (rows.length === 0) await refuse(keyOf(email))
  }

  async function countAddress(address: string): Promise<void> {
    const key = `address:${address}`
    const { rows } = await pool.query<{ count: number }>(
      `insert into identity_rate as r (key, count, window_start) values ($1, 1, clock_timestamp())
       on conflict (key) do update set
         count = case when r.window_start < clock_timestamp() - interval '${addressWindowMinutes} minutes' then 1 else r.count + 1 end,
         window_start = case when r.window_start < clock_timestamp() - interval '${addressWindowMinutes} minutes' then clock_timestamp() else r.window_start end,
         blocked_until = null
       returning count`,
      [key],
    )
    if (rows[0]!.count > mostFromAddress) {
      throw new AppError(
        'too-many-requests',
        `Too many attempts from this address. Wait ${addressWindowMinutes} minutes.`,
        {
          headers: { 'retry-after': String(60 * addressWindowMinutes) },
        },
      )
    }
  }

  async function refuse(key: string): Promise<never> {
    const { rows } = await pool.query<{ seconds: number | null }>(
      `select case when blocked_until < 'infinity' then greatest(1, ceil(extract(epoch from blocked_until - clock_timestamp())))::int end as seconds
       from identity_rate where key = $1`,
      [key],
    )
    const seconds = rows[0]?.seconds
    if (seconds == null) {
      throw new AppError(
        'too-many-requests',
        `The password of this account was wrong ${mostInARow} times in a row. Ask whoever runs the server to set a new one.`,
      )
    }
    throw new AppError(
      'too-many-requests',
      `The password of this account was wrong several times. Wait ${seconds} seconds, then try again.`,
      {
        headers: { 'retry-after': String(seconds) },
      },
    )
  }

  return {
    /** Call before looking at a proof. Throws too-many-requests while account or address must wait. */
    async beforeAttempt(email: string, address: string): Promise<void> {
      await countAddress(address)
      await countAccount(email)
    },
    /** The proof held: the account's count begins anew. */
    async afterSuccess(email: string): Promise<void> {
      await pool.query('delete from identity_rate where key = $1', [keyOf(email)])
    },
    /** For codes that belong to no account (first run, invitations). */
    countAddress,
  }
}

function keyOf(email: string): string {
  return `account:${email.trim().toLowerCase()}`
}
