import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import { newId } from '#platform/uuid'
import type { Told } from './event-time.ts'
import type { RowsSql } from '#platform/sql-rows'

export type NewStepEvent = {
  readonly id: string
  readonly testId: string
  readonly stepKey: string
  readonly kind: 'start' | 'end' | 'void'
  readonly loadId?: string | null
  readonly told: Told
  readonly note: string | null
  readonly supersedesId?: string | null
  readonly reason?: string | null
}

/** Writes one act of one test. @returns its row for the ledger */
export async function insertStepEvent(
  sql: RowsSql,
  { told, loadId = null, supersedesId = null, reason = null, ...event }: NewStepEvent,
): Promise<LedgerRow> {
  const row = {
    ...event,
    loadId,
    labId: sql.actor.labId,
    eventAt: told.eventAt,
    eventFrom: told.eventFrom,
    sentAt: told.sentAt,
    receivedAt: told.receivedAt,
    offsetMs: told.offsetMs,
    supersedesId,
    reason,
    byId: sql.actor.membershipId,
    at: sql.at,
  }
  await sql.rows(
    `insert into step_event (lab_id, id, test_id, step_key, kind, event_at, event_from, sent_at, received_at, offset_ms, note, supersedes_id, reason, by_id, at, load_id)
     values ($1::uuid, $2::uuid, $3::uuid, $4, $5, $6::timestamptz, $7, $8::timestamptz, $9::timestamptz, $10, $11, $12::uuid, $13, $14::uuid, $15::timestamptz, $16::uuid)`,
    [
      row.labId,
      row.id,
      row.testId,
      row.stepKey,
      row.kind,
      row.eventAt,
      row.eventFrom,
      row.sentAt,
      row.receivedAt,
      row.offsetMs,
      row.note,
      row.supersedesId,
      row.reason,
      row.byId,
      row.at,
      row.loadId,
    ],
  )
  return ledgerContentOf('step_event', row)
}

/** Ties an act to the instrument it was done with, to the calibration that held then and to a lot that was on it. */
export async function insertEquipmentUse(
  sql: RowsSql,
  use: { stepEventId: string; instrumentId: string; calibrationId: string | null; partLotId: string | null },
): Promise<void> {
  await sql.rows(
    `insert into equipment_use (lab_id, id, step_event_id, instrument_id, calibration_id, part_lot_id, settings, by_id, at)
     values ($1::uuid, $2::uuid, $3::uuid, $4::uuid, $5::uuid, $6::uuid, '{}', $7::uuid, $8::timestamptz)`,
    [
      sql.actor.labId,
      newId(),
      use.stepEventId,
      use.instrumentId,
      use.calibrationId,
      use.partLotId,
      sql.actor.membershipId,
      sql.at,
    ],
  )
}

/** The acts already stored under these ids: a message that is sent again is the same act. */
export async function findStepEvents(
  sql: RowsSql,
  ids: readonly string[],
): Promise<readonly { id: string; testId: string; stepKey: string; kind: string }[]> {
  return sql.rows(
    'select id, test_id as "testId", step_key as "stepKey", kind from step_event where lab_id = $1::uuid and id = any($2::uuid[])',
    [sql.actor.labId, ids],
  )
}

/** The machine that a method of a revision is run on: one machine a curve. */
export async function findCurveMachine(
  sql: RowsSql,
  revisionId: string,
  methodKey: string,
): Promise<{ id: string | null; code: string | null } | null> {
  const [found] = await sql.rows<{ id: string | null; code: string | null }>(
    `select d.machine_id as id, i.code from design_method d left join instrument i on i.lab_id = d.lab_id and i.id = d.machine_id
      where d.lab_id = $1::uuid and d.design_revision_id = $2::uuid and d.method_key = $3`,
    [sql.actor.labId, revisionId, methodKey],
  )
  return found ?? null
}

/** Settles the machine of a curve that has none. Waits for another that settles it at the same moment, and then leaves it. */
export async function settleCurveMachine(
  sql: RowsSql,
  revisionId: string,
  methodKey: string,
  machineId: string,
): Promise<void> {
  await sql.rows(
    'update design_method set machine_id = $4::uuid, version = version + 1 where lab_id = $1::uuid and design_revision_id = $2::uuid and method_key = $3 and machine_id is null',
    [sql.actor.labId, revisionId, methodKey, machineId],
  )
}
