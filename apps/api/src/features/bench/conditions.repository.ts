import type { LoggedValue } from '@curebook/trade/procedure/condition-log'
import type { RowsSql } from '#platform/sql-rows'
import type { Told } from '#platform/told-time'

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
export type StoredValue = NewValue & {
  readonly instrumentId: string
  /** By the clock of the device it was told on; null where its time was sent outright. */
  readonly eventAt: Date | null
}

export function findValues(sql: RowsSql, ids: readonly string[]): Promise<StoredValue[]> {
  return sql.rows<StoredValue>(
    `select id, instrument_id as "instrumentId", observed_at as "observedAt", event_at as "eventAt", typed, value::text as value, unit
       from condition_value where lab_id = $1::uuid and id = any($2::uuid[])`,
    [sql.actor.labId, ids],
  )
}

/**
 * @param source the person who entered them, or the key that they were posted with
 * @param told when they were read, as a device told it; null where their times were sent outright
 */
export async function insertValues(
  sql: RowsSql,
  instrumentId: string,
  values: readonly NewValue[],
  source: { readonly byId: string } | { readonly keyId: string },
  told: Told | null,
): Promise<void> {
  await sql.rows(
    `insert into condition_value (lab_id, id, instrument_id, observed_at, typed, value, unit, key_id, by_id, at,
                                  event_at, event_from, sent_at, offset_ms, note)
     select $1::uuid, v.id, $2::uuid, v.observed_at, v.typed, v.value::numeric, v.unit, $3::uuid, $4::uuid, $5::timestamptz,
            $11::timestamptz, $12::text, $13::timestamptz, $14::bigint, $15::text
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
      told?.eventAt ?? null,
      told?.eventFrom ?? null,
      told?.sentAt ?? null,
      told?.offsetMs ?? null,
      told?.note ?? null,
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
  readonly note: string | null
  /** Why it stands in the place of another value, and what that was. */
  readonly reason: string | null
  readonly correctedTyped: string | null
  readonly correctedName: string | null
}

/** The log between two instants as it stands, in the order of its times. */
export function findLog(sql: RowsSql, instrumentId: string, from: Date, until: Date): Promise<LogRow[]> {
  return sql.rows<LogRow>(
    `select v.id, v.observed_at as "observedAt", v.typed, v.value::text as value, v.unit, m.id as "byId", m.name as "byName", m.initials as "byInitials",
            v.note, v.reason, s.typed as "correctedTyped", sm.name as "correctedName"
       from condition_value v
       left join membership m on m.lab_id = v.lab_id and m.id = v.by_id
       left join condition_value s on s.lab_id = v.lab_id and s.id = v.supersedes_id
       left join membership sm on sm.lab_id = s.lab_id and sm.id = s.by_id
      where v.lab_id = $1::uuid and v.instrument_id = $2::uuid and v.observed_at between $3::timestamptz and $4::timestamptz
        and not exists (select from condition_value c where c.lab_id = v.lab_id and c.supersedes_id = v.id)
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

export type StandingValue = StoredValue & { readonly byId: string | null; readonly superseded: boolean }

/** One value of a log, whether or not it stands. */
export async function findValue(sql: RowsSql, id: string): Promise<StandingValue | null> {
  const [found] = await sql.rows<StandingValue>(
    `select v.id, v.instrument_id as "instrumentId", v.observed_at as "observedAt", v.event_at as "eventAt", v.typed, v.value::text as value, v.unit, v.by_id as "byId",
            exists (select from condition_value c where c.lab_id = v.lab_id and c.supersedes_id = v.id) as superseded
       from condition_value v where v.lab_id = $1::uuid and v.id = $2::uuid`,
    [sql.actor.labId, id],
  )
  return found ?? null
}

/** The correction that stands under this id, if any. */
export async function findCorrection(
  sql: RowsSql,
  id: string,
): Promise<{ supersedesId: string | null; typed: string; reason: string | null } | null> {
  const [found] = await sql.rows<{ supersedesId: string | null; typed: string; reason: string | null }>(
    'select supersedes_id as "supersedesId", typed, reason from condition_value where lab_id = $1::uuid and id = $2::uuid',
    [sql.actor.labId, id],
  )
  return found ?? null
}

/** Puts a value right: another takes its place at its time, with the reason; the first stays on record. */
export async function insertCorrection(
  sql: RowsSql,
  corrected: StoredValue,
  { id, typed, value, reason }: { id: string; typed: string; value: string; reason: string },
): Promise<void> {
  await sql.rows(
    `insert into condition_value (lab_id, id, instrument_id, observed_at, typed, value, unit, by_id, at, supersedes_id, reason)
     values ($1::uuid, $2::uuid, $3::uuid, $4::timestamptz, $5, $6::text::numeric, $7, $8::uuid, $9::timestamptz, $10::uuid, $11)`,
    [
      sql.actor.labId,
      id,
      corrected.instrumentId,
      corrected.observedAt,
      typed,
      value,
      corrected.unit,
      sql.actor.membershipId,
      sql.at,
      corrected.id,
      reason,
    ],
  )
}
