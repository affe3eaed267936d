import type { LedgerRow } from '#platform/ledger-content'
import { ledgerContentOf } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import type { Told } from './event-time.ts'

export type StoredWithdrawal = {
  readonly id: string
  readonly readingId: string
  readonly requestDig: Uint8Array
  readonly by: string
}

/** The withdrawal of a reading, or the one that stands under an id. */
export async function findWithdrawal(
  sql: RowsSql,
  { readingId, id }: { readonly readingId: string; readonly id: string },
): Promise<StoredWithdrawal | null> {
  const [found] = await sql.rows<StoredWithdrawal>(
    `select w.id, w.reading_id as "readingId", w.request_dig as "requestDig", m.name as by
       from reading_withdrawal w join membership m on m.lab_id = w.lab_id and m.id = w.by_id
      where w.lab_id = $1::uuid and (w.reading_id = $2::uuid or w.id = $3::uuid)
      order by w.reading_id = $2::uuid desc`,
    [sql.actor.labId, readingId, id],
  )
  return found ?? null
}

export type WithdrawnReading = {
  readonly testId: string | null
  readonly byId: string
  /** When it was, by the clock of its device. */
  readonly eventAt: Date
  /** When it was, by the server's clock. */
  readonly toldAt: Date
  readonly receivedAt: Date
}

/** Whose reading it is, of which test, when it was, and when it reached the server. */
export async function findEntered(sql: RowsSql, readingId: string): Promise<WithdrawnReading | null> {
  const [found] = await sql.rows<WithdrawnReading>(
    `select test_id as "testId", by_id as "byId", received_at as "receivedAt", event_at as "eventAt",
            event_at + offset_ms * interval '1 millisecond' as "toldAt"
       from reading where lab_id = $1::uuid and id = $2::uuid`,
    [sql.actor.labId, readingId],
  )
  return found ?? null
}

export type NewWithdrawal = {
  readonly id: string
  readonly readingId: string
  readonly testId: string
  readonly reason: string
  readonly requestDig: Buffer
  readonly told: Told
}

/** Writes a withdrawal and opens the slot of its reading. @returns its row for the ledger */
export async function insertWithdrawal(sql: RowsSql, { told, ...columns }: NewWithdrawal): Promise<LedgerRow> {
  const row = {
    ...columns,
    labId: sql.actor.labId,
    eventAt: told.eventAt,
    sentAt: told.sentAt,
    receivedAt: told.receivedAt,
    offsetMs: told.offsetMs,
    byId: sql.actor.membershipId,
    at: sql.at,
  }
  await sql.rows(
    `insert into reading_withdrawal (lab_id, id, reading_id, test_id, reason, event_at, sent_at, received_at, offset_ms, request_dig, by_id, at)
     values ($1::uuid, $2::uuid, $3::uuid, $4::uuid, $5, $6::timestamptz, $7::timestamptz, $8::timestamptz, $9, $10, $11::uuid, $12::timestamptz)`,
    [
      row.labId,
      row.id,
      row.readingId,
      row.testId,
      row.reason,
      row.eventAt,
      row.sentAt,
      row.receivedAt,
      row.offsetMs,
      row.requestDig,
      row.byId,
      row.at,
    ],
  )
  await sql.rows('delete from slot_now where lab_id = $1::uuid and reading_id = $2::uuid', [row.labId, row.readingId])
  return ledgerContentOf('reading_withdrawal', row)
}
