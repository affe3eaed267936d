import type { HeldCondition } from '@curebook/trade/procedure/condition-log'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import { decidingKinds } from './holds.repository.ts'

export type ExcursionRow = {
  readonly id: string
  readonly deviationId: string
  readonly low: string
  readonly high: string
  readonly fromAt: Date
  readonly untilAt: Date
  readonly peak: string
  readonly ended: boolean
  readonly decided: boolean
}

/** The times out of limits of an instrument as they stand, that touch a span; those closed since rest on nothing. */
export function findExcursions(sql: RowsSql, instrumentId: string, from: Date): Promise<ExcursionRow[]> {
  return sql.rows<ExcursionRow>(
    `select x.id, x.deviation_id as "deviationId", x.low::text as low, x.high::text as high, x.from_at as "fromAt", x.until_at as "untilAt", x.peak, x.ended,
            exists (select from deviation_event e where e.lab_id = x.lab_id and e.deviation_id = x.deviation_id and e.kind in ${decidingKinds}) as decided
       from condition_excursion x
       join deviation d on d.lab_id = x.lab_id and d.id = x.deviation_id and d.instrument_id = $2::uuid
      where x.lab_id = $1::uuid and x.until_at >= $3::timestamptz
        and not exists (select from deviation_event e where e.lab_id = x.lab_id and e.deviation_id = x.deviation_id and e.kind = 'close')
        and not exists (select from condition_excursion c where c.lab_id = x.lab_id and c.supersedes_id = x.id)
      order by x.from_at, x.id`,
    [sql.actor.labId, instrumentId, from],
  )
}

export type NewExcursion = Pick<HeldCondition, 'low' | 'high'> & {
  readonly deviationId: string
  readonly fromAt: Date
  readonly untilAt: Date
  readonly peak: string
  readonly ended: boolean
  readonly text: string
  readonly supersedesId: string | null
}

/** Keeps a time out of limits; one that has grown takes the place of itself. @returns its row for the ledger */
export async function insertExcursion(sql: RowsSql, excursion: NewExcursion): Promise<LedgerRow> {
  const row = {
    ...excursion,
    labId: sql.actor.labId,
    id: newId(),
    reason: excursion.supersedesId === null ? null : 'Further values of the log',
    at: sql.at,
  }
  await sql.rows(
    `insert into condition_excursion (lab_id, id, deviation_id, low, high, from_at, until_at, peak, ended, text, supersedes_id, reason, at)
     values ($1::uuid, $2::uuid, $3::uuid, $4::text::numeric, $5::text::numeric, $6::timestamptz, $7::timestamptz, $8, $9, $10, $11::uuid, $12, $13::timestamptz)`,
    [
      row.labId,
      row.id,
      row.deviationId,
      row.low,
      row.high,
      row.fromAt,
      row.untilAt,
      row.peak,
      row.ended,
      row.text,
      row.supersedesId,
      row.reason,
      row.at,
    ],
  )
  return ledgerContentOf('condition_excursion', row)
}

/** SQL: what a deviation says, with span and peak where it is about a time out of limits. */
export const deviationText = (table: string) => `${table}.text || coalesce((
  select ' ' || x.text from condition_excursion x
   where x.lab_id = ${table}.lab_id and x.deviation_id = ${table}.id
     and not exists (select from condition_excursion c where c.lab_id = x.lab_id and c.supersedes_id = x.id)), '')`
