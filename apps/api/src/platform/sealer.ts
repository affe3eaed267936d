import { Client } from 'pg'
import type { Clock } from './clock.ts'
import type { LiveLog } from './live.ts'

export type Sealer = ReturnType<typeof createSealer>

/** Chain numbers fit; the lock that makes one process of many the leader. */
const leaderLock = "hashtextextended('curebook sealer leader', 0)"

/**
 * Puts committed entries under the chain. One process leads and seals every 200 ms; every process may seal at once, before
 * something is signed, reported or verified. Each batch notifies live streams with its transaction.
 */
export function createSealer({
  sealerUrl,
  clock,
  log,
  everyMs = 200,
}: {
  sealerUrl: string
  clock: Clock
  log: LiveLog
  everyMs?: number
}) {
  let connection: Promise<Client> | undefined
  let leads = false
  let timer: NodeJS.Timeout | undefined
  let closed = false
  let working: Promise<unknown> = Promise.resolve()

  function connected(): Promise<Client> {
    connection ??= connect().catch((error: unknown) => {
      connection = undefined
      throw error
    })
    return connection
  }

  async function connect(): Promise<Client> {
    const client = new Client({ connectionString: sealerUrl, application_name: 'curebook sealer' })
    client.on('error', (error) => log.error({ err: error }, 'the sealer’s connection failed'))
    client.on('end', () => {
      connection = undefined
      leads = false
    })
    await client.connect()
    return client
  }

  async function seal(): Promise<void> {
    const client = await connected()
    let sealed: number
    do {
      const { rows } = await client.query<{ sealed: string }>(sealSql, [clock.now()])
      sealed = Number(rows[0]!.sealed)
    } while (sealed > 0)
  }

  async function round(): Promise<void> {
    const client = await connected()
    if (!leads) {
      const { rows } = await client.query<{ leads: boolean }>(`select pg_try_advisory_lock(${leaderLock}) as leads`)
      leads = rows[0]!.leads
    }
    if (leads) await seal()
  }

  function schedule(delayMs: number): void {
    if (closed) return
    timer = setTimeout(() => {
      working = round().then(
        () => schedule(leads ? everyMs : 5 * everyMs),
        (error: unknown) => {
          log.error({ err: error }, 'sealing failed')
          schedule(5 * everyMs)
        },
      )
    }, delayMs)
  }

  return {
    /** Begins the rounds of this process. */
    start: () => schedule(0),
    /** Resolves when everything committed before the call is under the chain. */
    sealNow: seal,
    async close(): Promise<void> {
      closed = true
      clearTimeout(timer)
      await working
      await (await connection?.catch(() => undefined))?.end()
    },
  }
}

const sealSql = `
  with sealed as materialized (select lab_id, first_seq, last_seq from seal_ledger($1)),
    told as materialized (select pg_notify('curebook_ledger', json_build_object('lab', lab_id, 'seq', last_seq)::text) from sealed where last_seq >= first_seq)
  select coalesce((select sum(last_seq - first_seq + 1) from sealed), 0) as sealed, (select count(*) from told) as told`
