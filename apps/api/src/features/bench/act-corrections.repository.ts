import type { RowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import type { InstrumentAtHand } from './readings.repository.ts'

export type StoredAct = {
  readonly id: string
  readonly testId: string
  readonly stepKey: string
  readonly kind: 'start' | 'end'
  readonly loadId: string | null
  readonly eventAt: Date
  readonly supersedesId: string | null
  readonly reason: string | null
  readonly superseded: boolean
}

/** A start or end, whether or not it stands. */
export async function findAct(sql: RowsSql, id: string): Promise<StoredAct | null> {
  const [found] = await sql.rows<StoredAct>(
    `select s.id, s.test_id as "testId", s.step_key as "stepKey", s.kind, s.load_id as "loadId", s.event_at as "eventAt",
            s.supersedes_id as "supersedesId", s.reason,
            exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id) as superseded
       from step_event s where s.lab_id = $1::uuid and s.id = $2::uuid and s.kind in ('start', 'end')`,
    [sql.actor.labId, id],
  )
  return found ?? null
}

/** What the first was done with, the one that takes its place was done with too. */
export async function carryEquipment(
  sql: RowsSql,
  fromId: string,
  toId: string,
): Promise<readonly Pick<InstrumentAtHand, 'id' | 'code' | 'state' | 'kind'>[]> {
  const uses = await sql.rows<{ instrumentId: string; calibrationId: string | null; partLotId: string | null }>(
    `select instrument_id as "instrumentId", calibration_id as "calibrationId", part_lot_id as "partLotId"
       from equipment_use where lab_id = $1::uuid and step_event_id = $2::uuid`,
    [sql.actor.labId, fromId],
  )
  for (const { instrumentId, calibrationId, partLotId } of uses)
    await sql.rows(
      `insert into equipment_use (lab_id, id, step_event_id, instrument_id, calibration_id, part_lot_id, settings, by_id, at)
       values ($1::uuid, $2::uuid, $3::uuid, $4::uuid, $5::uuid, $6::uuid, '{}', $7::uuid, $8::timestamptz)`,
      [sql.actor.labId, newId(), toId, instrumentId, calibrationId, partLotId, sql.actor.membershipId, sql.at],
    )
  return sql.rows<Pick<InstrumentAtHand, 'id' | 'code' | 'state' | 'kind'>>(
    'select id, code, state, kind from instrument where lab_id = $1::uuid and id = any($2::uuid[]) order by code',
    [sql.actor.labId, uses.map(({ instrumentId }) => instrumentId)],
  )
}
