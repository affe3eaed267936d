import type { Database } from '@curebook/database/open-database'
import type { RowsSql } from '#platform/sql-rows'

export type KeyHolder = { readonly labId: string; readonly instrumentId: string; readonly keyId: string }

/** The instrument behind a key that stands, of whatever laboratory. */
export async function findKeyHolder({ pool }: Database, tokenHash: Buffer): Promise<KeyHolder | null> {
  const { rows } = await pool.query<KeyHolder>(
    'select lab_id as "labId", instrument_id as "instrumentId", key_id as "keyId" from instrument_by_key($1)',
    [tokenHash],
  )
  return rows[0] ?? null
}

export type KeyRow = {
  readonly id: string
  readonly isKey: boolean
  readonly at: Date
  readonly byId: string
  readonly byName: string
  readonly byInitials: string
}

/** The last word on an instrument's key: a key, or that it has none any more. */
export async function findKey(sql: RowsSql, instrumentId: string): Promise<KeyRow | null> {
  const [found] = await sql.rows<KeyRow>(
    `select k.id, k.token_hash is not null as "isKey", k.at, m.id as "byId", m.name as "byName", m.initials as "byInitials"
       from instrument_key k join membership m on m.lab_id = k.lab_id and m.id = k.by_id
      where k.lab_id = $1::uuid and k.instrument_id = $2::uuid
        and not exists (select from instrument_key c where c.lab_id = k.lab_id and c.supersedes_id = k.id)`,
    [sql.actor.labId, instrumentId],
  )
  return found ?? null
}

/** Whether a key row of this id stands, and of which instrument. */
export async function findKeyById(sql: RowsSql, id: string): Promise<{ instrumentId: string } | null> {
  const [found] = await sql.rows<{ instrumentId: string }>(
    'select instrument_id as "instrumentId" from instrument_key where lab_id = $1::uuid and id = $2::uuid',
    [sql.actor.labId, id],
  )
  return found ?? null
}

export async function insertKey(
  sql: RowsSql,
  key: {
    id: string
    instrumentId: string
    tokenHash: Buffer | null
    supersedesId: string | null
    reason: string | null
  },
): Promise<void> {
  await sql.rows(
    `insert into instrument_key (lab_id, id, instrument_id, token_hash, supersedes_id, reason, by_id, at)
     values ($1::uuid, $2::uuid, $3::uuid, $4, $5::uuid, $6, $7::uuid, $8::timestamptz)`,
    [
      sql.actor.labId,
      key.id,
      key.instrumentId,
      key.tokenHash,
      key.supersedesId,
      key.reason,
      sql.actor.membershipId,
      sql.at,
    ],
  )
}
