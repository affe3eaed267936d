import type { Database } from '@curebook/database/open-database'
import type { HeldCondition, LoggedValue } from '@curebook/trade/procedure/condition-log'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'

export type KeyHolder = { readonly labId: string; readonly instrumentId: string; readonly keyId: string }

/** The instrument behind a key that stands, of whatever laboratory. */
export async function findKeyHolder({ pool }: Database, tokenHash: Buffer): Promise<KeyHolder | null> {
  const { rows } = await pool.query<KeyHolder>(
    'select lab_id as "labId", instrument_id as "instrumentId", key_id as "keyId" from instrument_by_key($1)',
    [tokenHash],
  )
  return rows[0] ?? null
}

/** Values of one log, keys and excursions of one instrument, follow one another. */
export async function lockLog(sql: RowsSql, instrumentId: string): Promise<void> {
  await sql.rows('select pg_advisory_xact_lock(hashtextextended($1, 0))', [`conditions ${instrumentId}`])
}

export type NewValue = {
  readonly id: string
  readonly observedAt: Date
  readonly typed: string
  readonly value: string
  readonly unit: string
}
export type StoredValue = NewValue & { readonly instrumentId: string }

export function findValues(sql: RowsSql, ids: readonly string[]): Promise<StoredValue[]> {
  return sql.rows<StoredValue>(
    `select id, instrument_id as "instrumentId", observed_at as "observedAt", typed, value::text as value, unit
       from condition_value where lab_id = $1::uuid and id = any($2::uuid[])`,
    [sql.actor.labId, ids],
  )
}

/** @param source the person who entered them, or the key that they were posted with */
export async function insertValues(
  sql: RowsSql,
  instrumentId: string,
  values: readonly NewValue[],
  source: { readonly byId: string } | { readonly keyId: string },
): Promise<void> {
  await sql.rows(
    `insert into condition_value (lab_id, id, instrument_id, observed_at, typed, value, unit, key_id, by_id, at)
     select $1::uuid, v.id, $2::uuid, v.observed_at, v.typed, v.value::numeric, v.unit, $3::uuid, $4::uuid, $5::timestamptz
       from unnest($6::uuid[], $7::timestamptz[], $8::text[], $9::text[], $10::text[]) as v (id, observed_at, typed, value, unit)`,
    [
      sql.actor.labId,
      instrumentId,
      'keyId' in source ? source.keyId : null,
      'byId' in source ? source.byId : null,
      sql.at,
      values.map(({ id }) => id),
      values.map(({ observedAt }) => observedAt),
      values.map(({ typed }) => typed),
      values.map(({ value }) => value),
      values.map(({ unit }) => unit),
    ],
  )
}

export type LogRow = {
  readonly id: string
  readonly observedAt: Date
  readonly typed: string
  readonly value: string
  readonly unit: string
  readonly byId: string | null
  readonly byName: string | null
  readonly byInitials: string | null
}

/** The log between two instants, in the order of its times. */
export function findLog(sql: RowsSql, instrumentId: string, from: Date, until: Date): Promise<LogRow[]> {
  return sql.rows<LogRow>(
    `select v.id, v.observed_at as "observedAt", v.typed, v.value::text as value, v.unit, m.id as "byId", m.name as "byName", m.initials as "byInitials"
       from condition_value v left join membership m on m.lab_id = v.lab_id and m.id = v.by_id
      where v.lab_id = $1::uuid and v.instrument_id = $2::uuid and v.observed_at between $3::timestamptz and $4::timestamptz
      order by v.observed_at, v.id`,
    [sql.actor.labId, instrumentId, from, until],
  )
}

/** When the log of an instrument was last read; null while nothing is in it. */
export async function findLastValueAt(sql: RowsSql, instrumentId: string): Promise<Date | null> {
  const [found] = await sql.rows<{ at: Date | null }>(
    'select max(observed_at) as at from condition_value where lab_id = $1::uuid and instrument_id = $2::uuid',
    [sql.actor.labId, instrumentId],
  )
  return found?.at ?? null
}

export function toLogged(rows: readonly LogRow[]): LoggedValue[] {
  return rows.map(({ observedAt, value }) => ({ at: observedAt.toISOString(), value }))
}

/** Tests that were put into this oven or bath since an instant, by a load or by the instrument that the act names. */
export function findPutIn(sql: RowsSql, instrumentId: string, since: Date) {
  return sql.rows<{ testId: string; methodKey: string; parametersText: string; designId: string | null }>(
    `select distinct t.id as "testId", t.method_key as "methodKey", e.parameters as "parametersText", r.design_id as "designId"
       from step_event s
       join test_event t on t.lab_id = s.lab_id and t.id = s.test_id
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id and n.state not in ('void', 'replaced')
       join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
       left join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
       left join load l on l.lab_id = s.lab_id and l.id = s.load_id
       left join equipment_use u on u.lab_id = s.lab_id and u.step_event_id = s.id and u.instrument_id = $2::uuid
      where s.lab_id = $1::uuid and s.kind = 'start' and s.event_at >= $3::timestamptz
        and (l.instrument_id = $2::uuid or u.instrument_id = $2::uuid)`,
    [sql.actor.labId, instrumentId, since],
  )
}

/** Which acts put a test into this instrument: their steps. */
export function findStepsInto(sql: RowsSql, instrumentId: string, testIds: readonly string[]) {
  return sql.rows<{ testId: string; step: string; loadId: string | null }>(
    `select distinct s.test_id as "testId", s.step_key as step, s.load_id as "loadId"
       from step_event s
       left join load l on l.lab_id = s.lab_id and l.id = s.load_id
       left join equipment_use u on u.lab_id = s.lab_id and u.step_event_id = s.id and u.instrument_id = $2::uuid
      where s.lab_id = $1::uuid and s.kind = 'start' and s.test_id = any($3::uuid[])
        and (l.instrument_id = $2::uuid or u.instrument_id = $2::uuid)
        and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)`,
    [sql.actor.labId, instrumentId, testIds],
  )
}

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

/** The times out of limits of an instrument as they stand, that touch a span. */
export function findExcursions(sql: RowsSql, instrumentId: string, from: Date): Promise<ExcursionRow[]> {
  return sql.rows<ExcursionRow>(
    `select x.id, x.deviation_id as "deviationId", x.low::text as low, x.high::text as high, x.from_at as "fromAt", x.until_at as "untilAt", x.peak, x.ended,
            exists (select from deviation_event e where e.lab_id = x.lab_id and e.deviation_id = x.deviation_id) as decided
       from condition_excursion x
       join deviation d on d.lab_id = x.lab_id and d.id = x.deviation_id and d.instrument_id = $2::uuid
      where x.lab_id = $1::uuid and x.until_at >= $3::timestamptz
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
