import { Client } from 'pg'
import type { Actor } from './actor.ts'

export type LiveEvent = { seq: number; topics: string[] }
export type LiveLog = { error(data: object, message: string): void }

type Sealed = { seq: string; topics: string[]; client_id: string | null }
type Subscriber = { actor: Actor; seq: number; send(event: LiveEvent): void }

export type Live = ReturnType<typeof createLive>

const most = 1000

/**
 * What changed, as the sealer seals it: each process reads the new entries once for each laboratory and hands every stream
 * what its person may know of. Staff hear all topics of the laboratory, a client only those of entries for that client.
 */
export function createLive({ sealerUrl, log }: { sealerUrl: string; log: LiveLog }) {
  const laboratories = new Map<string, Set<Subscriber>>()
  const reading = new Map<string, Promise<void>>()
  let connection: Promise<Client> | undefined
  let closed = false
  let retry: NodeJS.Timeout | undefined

  function connected(): Promise<Client> {
    connection ??= listen().catch((error: unknown) => {
      connection = undefined
      throw error
    })
    return connection
  }

  async function listen(): Promise<Client> {
    const client = new Client({ connectionString: sealerUrl, application_name: 'curebook live' })
    client.on('error', (error) => log.error({ err: error }, 'the live connection failed'))
    client.on('end', () => {
      connection = undefined
      if (!closed && laboratories.size > 0) scheduleReconnection()
    })
    client.on('notification', ({ payload }) => deliver((JSON.parse(payload ?? '{}') as { lab: string }).lab))
    await client.connect()
    await client.query('listen curebook_ledger')
    return client
  }

  function scheduleReconnection(): void {
    retry ??= setTimeout(() => {
      retry = undefined
      connected().then(
        // What was sealed meanwhile was notified to nobody.
        () => [...laboratories.keys()].forEach(deliver),
        () => scheduleReconnection(),
      )
    }, 500)
  }

  /** Reads on for a laboratory, one reading at a time. */
  function deliver(labId: string): void {
    if (!laboratories.has(labId)) return
    const next = (reading.get(labId) ?? Promise.resolve())
      .then(() => readOn(labId))
      .catch((error: unknown) => log.error({ err: error, labId }, 'live events were not read'))
    reading.set(labId, next)
    void next.finally(() => reading.get(labId) === next && reading.delete(labId))
  }

  async function readOn(labId: string): Promise<void> {
    const subscribers = [...(laboratories.get(labId) ?? [])]
    if (subscribers.length === 0) return
    const client = await connected()
    const from = Math.min(...subscribers.map(({ seq }) => seq))
    const { rows } = await client.query<Sealed>(
      `select s.seq, e.topics, e.client_id from ledger_seal s join ledger_entry e on e.lab_id = s.lab_id and e.id = s.entry_id
       where s.lab_id = $1 and s.seq > $2 order by s.seq limit ${most}`,
      [labId, from],
    )
    const last = Number(rows.at(-1)?.seq ?? from)
    for (const subscriber of subscribers) {
      const topics = new Set(
        rows.filter(({ seq }) => Number(seq) > subscriber.seq).flatMap((row) => topicsFor(subscriber.actor, row)),
      )
      if (last > subscriber.seq) subscriber.seq = last
      if (topics.size > 0) subscriber.send({ seq: last, topics: [...topics].sort() })
    }
    if (rows.length === most) await readOn(labId)
  }

  async function headOf(labId: string): Promise<number> {
    const client = await connected()
    const { rows } = await client.query<{ seq: string }>(
      'select coalesce(max(seq), 0) as seq from ledger_seal where lab_id = $1',
      [labId],
    )
    return Number(rows[0]!.seq)
  }

  return {
    /** Starts a stream after entry `after`, by default with what comes next; `from` is the entry after which it starts. */
    async subscribe(
      actor: Actor,
      after: number | undefined,
      send: Subscriber['send'],
    ): Promise<{ from: number; end: () => void }> {
      const from = after ?? (await headOf(actor.labId))
      const subscriber: Subscriber = { actor, seq: from, send }
      const subscribers = laboratories.get(actor.labId) ?? new Set()
      laboratories.set(actor.labId, subscribers.add(subscriber))
      // Connects, listens, and reads what was sealed since `after`.
      deliver(actor.labId)
      const end = () => {
        subscribers.delete(subscriber)
        if (subscribers.size === 0) laboratories.delete(actor.labId)
      }
      return { from, end }
    },
    async close(): Promise<void> {
      closed = true
      clearTimeout(retry)
      laboratories.clear()
      await (await connection?.catch(() => undefined))?.end()
    },
  }
}

function topicsFor({ clientId }: Actor, entry: Sealed): string[] {
  if (clientId === null) return entry.topics
  return entry.client_id === clientId ? [`client:${clientId}`] : []
}
