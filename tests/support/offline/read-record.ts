import type pg from 'pg'

/** A row that came of something entered, whichever table it stands in. */
export type RecordRow = {
  id: string
  /** Null of a value of an oven's log. */
  test_id: string | null
  by_id: string
  typed: string | null
  event_at: Date
  sent_at: Date
  received_at: Date
  offset_ms: number
}
export type LedgerRow = { subject_id: string; action: string; actor_id: string; content: string }

/** Everything that the record holds of these tests, and the log's values under these ids, in the order in which it was written. */
export async function readRecord(
  owner: pg.Client,
  testIds: readonly string[],
  ids: readonly string[],
): Promise<RecordRow[]> {
  const columns = 'id, test_id, by_id, event_at, sent_at, received_at, offset_ms::float8, written_at'
  const { rows } = await owner.query<RecordRow>(
    `select typed, ${columns} from reading where test_id = any($1::uuid[])
     union all select null, ${columns} from step_event where test_id = any($1::uuid[])
     union all select null, ${columns} from reading_withdrawal where test_id = any($1::uuid[])
     union all select typed, id, null, by_id, event_at, sent_at, at, offset_ms::float8, written_at
       from condition_value where id = any($2::uuid[])
     order by received_at, written_at`,
    [testIds, ids],
  )
  return rows
}

/** Entries of the ledger about these things: what was done to each, and by whom. */
export async function readLedger(owner: pg.Client, ids: readonly string[]): Promise<LedgerRow[]> {
  const { rows } = await owner.query<LedgerRow>(
    'select subject_id, action, actor_id, content from ledger_entry where subject_id = any($1::uuid[])',
    [ids],
  )
  return rows
}
