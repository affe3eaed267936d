import type { LedgerRow } from '#platform/ledger-content'
import { ledgerContentOf } from '#platform/ledger-content'
import type { Told } from './event-time.ts'
import type { RowsSql } from '#platform/sql-rows'

export type NewReading = {
  readonly id: string
  readonly testId: string
  readonly stepKey: string
  readonly key: string
  readonly repeat: number
  readonly kind: string
  readonly typed: string
  readonly value: string | null
  readonly unit: string | null
  readonly choice: string | null
  readonly instrumentId: string | null
  readonly calibrationId: string | null
  readonly deviceId: string | null
  /** The photograph that it was read from: a sheet of paper. */
  readonly attachmentId?: string | null
  readonly confirmedOdd: boolean
  readonly requestDig: Buffer
  readonly supersedesId: string | null
  readonly reason: string | null
  readonly told: Told
  /** By the server's clock: the act's time, by which windows are judged. A slip put right does not move it. */
  readonly actedAt: Date
}

/** Writes a reading and makes it the one that stands in its slot. @returns its row for the ledger */
export async function insertReading(sql: RowsSql, reading: NewReading): Promise<LedgerRow> {
  const { told, actedAt, ...columns } = reading
  const row = {
    ...columns,
    labId: sql.actor.labId,
    eventAt: told.eventAt,
    eventFrom: told.eventFrom,
    sentAt: told.sentAt,
    receivedAt: told.receivedAt,
    offsetMs: told.offsetMs,
    transcribed: told.eventFrom === 'paper',
    attachmentId: columns.attachmentId ?? null,
    actorKind: 'person',
    note: told.note,
    byId: sql.actor.membershipId,
    at: sql.at,
  }
  await sql.rows(
    `insert into reading (lab_id, id, test_id, step_key, key, repeat, kind, typed, value, unit, choice, instrument_id, calibration_id, event_at, event_from, sent_at, received_at, offset_ms, device_id, transcribed, confirmed_odd, actor_kind, request_dig, note, supersedes_id, reason, by_id, at, attachment_id)
     values ($1::uuid, $2::uuid, $3::uuid, $4, $5, $6, $7, $8, $9::text::numeric, $10, $11, $12::uuid, $13::uuid, $14::timestamptz, $15, $16::timestamptz, $17::timestamptz, $18, $19::uuid, $20, $21, $22, $23, $24, $25::uuid, $26, $27::uuid, $28::timestamptz, $29::uuid)`,
    [
      row.labId,
      row.id,
      row.testId,
      row.stepKey,
      row.key,
      row.repeat,
      row.kind,
      row.typed,
      row.value,
      row.unit,
      row.choice,
      row.instrumentId,
      row.calibrationId,
      row.eventAt,
      row.eventFrom,
      row.sentAt,
      row.receivedAt,
      row.offsetMs,
      row.deviceId,
      row.transcribed,
      row.confirmedOdd,
      row.actorKind,
      row.requestDig,
      row.note,
      row.supersedesId,
      row.reason,
      row.byId,
      row.at,
      row.attachmentId,
    ],
  )
  await sql.rows(
    `insert into slot_now (lab_id, test_id, step_key, key, repeat, reading_id, typed, value, unit, choice, event_at, counts)
     values ($1::uuid, $2::uuid, $3, $4, $5, $6::uuid, $7, $8::text::numeric, $9, $10, $11::timestamptz, true)
     on conflict (lab_id, test_id, step_key, key, repeat) do update
       set reading_id = excluded.reading_id, typed = excluded.typed, value = excluded.value, unit = excluded.unit, choice = excluded.choice, event_at = excluded.event_at, counts = true`,
    [
      row.labId,
      row.testId,
      row.stepKey,
      row.key,
      row.repeat,
      row.id,
      row.typed,
      row.value,
      row.unit,
      row.choice,
      actedAt,
    ],
  )
  return ledgerContentOf('reading', row)
}

export type InstrumentAtHand = {
  readonly id: string
  readonly code: string
  readonly kind: string
  readonly range: string | null
  readonly resolution: string | null
  readonly unit: string | null
  readonly state: string
  readonly calibrationId: string | null
}

/** An instrument with the calibration that holds now, or null when the laboratory has none of this id. */
export async function findInstrument(sql: RowsSql, id: string): Promise<InstrumentAtHand | null> {
  const [found] = await sql.rows<InstrumentAtHand>(
    `select i.id, i.code, i.kind, i.range::text as range, i.resolution::text as resolution, i.unit, i.state,
            (select c.id from calibration c where c.lab_id = i.lab_id and c.instrument_id = i.id and c.passed
                and not exists (select from calibration d where d.lab_id = c.lab_id and d.supersedes_id = c.id)
              order by c.done_on desc, c.at desc, c.id desc limit 1) as "calibrationId"
       from instrument i where i.lab_id = $1::uuid and i.id = $2::uuid`,
    [sql.actor.labId, id],
  )
  return found ?? null
}

export type StoredReading = {
  readonly testId: string | null
  readonly requestDig: Uint8Array
  readonly instrumentId: string | null
  readonly calibrationId: string | null
}

/** What is stored under a reading's id, if anything. */
export async function findReading(sql: RowsSql, id: string): Promise<StoredReading | null> {
  const [found] = await sql.rows<StoredReading>(
    'select test_id as "testId", request_dig as "requestDig", instrument_id as "instrumentId", calibration_id as "calibrationId" from reading where lab_id = $1::uuid and id = $2::uuid',
    [sql.actor.labId, id],
  )
  return found ?? null
}

/** Whether a file of this id is kept here. */
export async function hasAttachment(sql: RowsSql, id: string): Promise<boolean> {
  const found = await sql.rows('select id from attachment where lab_id = $1::uuid and id = $2::uuid', [
    sql.actor.labId,
    id,
  ])
  return found.length > 0
}
