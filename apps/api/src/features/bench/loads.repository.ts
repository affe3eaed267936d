import type { PersonName } from '@curebook/contract/common'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import type { Told } from './event-time.ts'
import { leftOutSql, waitsSql } from './holds.repository.ts'

export type LoadRow = {
  readonly id: string
  readonly kind: 'oven' | 'bath'
  readonly instrumentId: string
  readonly openedAt: Date
} & PersonName

const loadColumns = `l.id, l.kind, l.instrument_id as "instrumentId", l.opened_at as "openedAt", m.id as "membershipId", m.name, m.initials
  from load l join membership m on m.lab_id = l.lab_id and m.id = l.by_id`

/** Loads by id, and those opened since an instant, which may have nothing in them yet. */
export function findLoads(sql: RowsSql, ids: readonly string[], since: Date | null): Promise<LoadRow[]> {
  return sql.rows<LoadRow>(
    `select ${loadColumns} where l.lab_id = $1::uuid and (l.id = any($2::uuid[]) or l.opened_at >= $3::timestamptz) order by l.opened_at, l.id`,
    [sql.actor.labId, ids, since],
  )
}

/** Acts on one load follow one another. */
export async function lockLoad(sql: RowsSql, id: string): Promise<void> {
  await sql.rows('select pg_advisory_xact_lock(hashtextextended($1, 0))', [`load ${id}`])
}

/** False when a load stands under this id already. */
export async function insertLoad(
  sql: RowsSql,
  load: { id: string; kind: string; instrumentId: string; place: string; openedAt: Date },
): Promise<boolean> {
  const written = await sql.rows(
    `insert into load (lab_id, id, kind, instrument_id, place, opened_at, by_id, at)
     values ($1::uuid, $2::uuid, $3, $4::uuid, $5, $6::timestamptz, $7::uuid, $8::timestamptz) on conflict (lab_id, id) do nothing returning id`,
    [sql.actor.labId, load.id, load.kind, load.instrumentId, load.place, load.openedAt, sql.actor.membershipId, sql.at],
  )
  return written.length > 0
}

export type StandingRow = {
  readonly testId: string
  readonly code: string
  readonly label: string
  readonly designId: string | null
  readonly designName: string | null
  readonly methodKey: string
  readonly emulsionPercent: string | null
  readonly parametersText: string
  readonly dueStep: string | null
  readonly dueAct: string | null
  readonly opensAt: Date | null
  readonly closesAt: Date | null
}

/** Every specimen that is being worked on, of all projects, with its next act. */
export function findWorked(sql: RowsSql): Promise<StandingRow[]> {
  return sql.rows<StandingRow>(
    `select t.id as "testId", i.code, t.label, g.id as "designId", g.name as "designName", t.method_key as "methodKey",
            x.emulsion_percent_text as "emulsionPercent", e.parameters as "parametersText",
            d.step_key as "dueStep", d.act as "dueAct", d.opens_at as "opensAt", d.closes_at as "closesAt"
       from test_now n
       join test_event t on t.lab_id = n.lab_id and t.id = n.test_id
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
       left join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
       left join design g on g.lab_id = r.lab_id and g.id = r.design_id
       left join mix x on x.lab_id = t.lab_id and x.id = t.mix_id
       left join due d on d.lab_id = n.lab_id and d.test_id = n.test_id
      where n.lab_id = $1::uuid and n.state = 'in-work'
      order by d.closes_at nulls last, t.label, i.code`,
    [sql.actor.labId],
  )
}

export type ActRow = {
  readonly testId: string
  readonly step: string
  readonly act: 'start' | 'end'
  readonly at: Date
  readonly loadId: string | null
  /** The oven or bath that the act names. */
  readonly instrumentId: string | null
}

/** The standing acts of tests, by the server's clock. */
export function findActs(sql: RowsSql, testIds: readonly string[]): Promise<ActRow[]> {
  return sql.rows<ActRow>(
    `select s.test_id as "testId", s.step_key as step, s.kind as act, s.load_id as "loadId", o.id as "instrumentId",
            s.event_at + make_interval(secs => coalesce(s.offset_ms, 0) / 1000.0) as at
       from step_event s
       left join lateral (
         select i.id from equipment_use u join instrument i on i.lab_id = u.lab_id and i.id = u.instrument_id and i.kind in ('oven', 'bath')
          where u.lab_id = s.lab_id and u.step_event_id = s.id limit 1
       ) o on true
      where s.lab_id = $1::uuid and s.test_id = any($2::uuid[]) and s.kind in ('start', 'end')
        and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)`,
    [sql.actor.labId, testIds],
  )
}

export type LoadReadingRow = PersonName & {
  readonly id: string
  readonly loadId: string
  readonly stepKey: string
  /** The check specimen's test where it is a mass. */
  readonly key: string
  readonly typed: string
  readonly value: string
  readonly unit: string
  readonly repeat: number
  readonly at: Date
  readonly instrumentId: string | null
  readonly instrumentCode: string | null
  /** Kept, and does not count until released. */
  readonly waits: boolean
  /** Decided never to count. */
  readonly leftOut: boolean
}

/** Temperatures and warm weighings of loads, in the order in which they were read. */
export function findLoadReadings(sql: RowsSql, loadIds: readonly string[]): Promise<LoadReadingRow[]> {
  return sql.rows<LoadReadingRow>(
    `select r.id, r.load_id as "loadId", r.step_key as "stepKey", r.key, r.typed, r.value::text as value, r.unit, r.repeat,
            r.event_at + make_interval(secs => coalesce(r.offset_ms, 0) / 1000.0) as at, m.id as "membershipId", m.name, m.initials,
            i.id as "instrumentId", i.code as "instrumentCode", ${waitsSql('r.lab_id', 'r.id')} as waits, ${leftOutSql('r.lab_id', 'r.id')} as "leftOut"
       from reading r
       join membership m on m.lab_id = r.lab_id and m.id = r.by_id
       left join instrument i on i.lab_id = r.lab_id and i.id = r.instrument_id
      where r.lab_id = $1::uuid and r.load_id = any($2::uuid[])
        and not exists (select from reading c where c.lab_id = r.lab_id and c.supersedes_id = r.id)
      order by r.event_at, r.id`,
    [sql.actor.labId, loadIds],
  )
}

export type MemberRow = {
  readonly testId: string
  readonly loadId: string
  readonly code: string
  readonly label: string
  readonly methodKey: string
  readonly parametersText: string
}

/** Every specimen that a load has ever held. */
export function findMembers(sql: RowsSql, loadIds: readonly string[]): Promise<MemberRow[]> {
  return sql.rows<MemberRow>(
    `select distinct s.load_id as "loadId", t.id as "testId", i.code, t.label, t.method_key as "methodKey", e.parameters as "parametersText"
       from step_event s
       join test_event t on t.lab_id = s.lab_id and t.id = s.test_id
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
      where s.lab_id = $1::uuid and s.load_id = any($2::uuid[])`,
    [sql.actor.labId, loadIds],
  )
}

export type NewLoadReading = {
  readonly id: string
  readonly loadId: string
  readonly stepKey: 'temperature' | 'warm-mass'
  readonly key: string
  readonly typed: string
  readonly value: string
  readonly unit: string
  readonly instrumentId: string | null
  readonly calibrationId: string | null
  readonly requestDig: Buffer
  readonly told: Told
  readonly supersedes: { readonly id: string; readonly reason: string; readonly repeat: number } | null
}

/** Writes a reading of a load, the next of its key. The load is locked. @returns its row for the ledger */
export async function insertLoadReading(
  sql: RowsSql,
  { told, supersedes, ...columns }: NewLoadReading,
): Promise<LedgerRow> {
  const [next] = await sql.rows<{ repeat: number }>(
    'select coalesce(max(repeat), 0)::int + 1 as repeat from reading where lab_id = $1::uuid and load_id = $2::uuid and step_key = $3 and key = $4',
    [sql.actor.labId, columns.loadId, columns.stepKey, columns.key],
  )
  const row = {
    ...columns,
    labId: sql.actor.labId,
    repeat: supersedes?.repeat ?? next!.repeat,
    supersedesId: supersedes?.id ?? null,
    reason: supersedes?.reason ?? null,
    kind: 'number',
    eventAt: told.eventAt,
    eventFrom: told.eventFrom,
    sentAt: told.sentAt,
    receivedAt: told.receivedAt,
    offsetMs: told.offsetMs,
    transcribed: told.eventFrom === 'paper',
    confirmedOdd: false,
    actorKind: 'person',
    note: told.note,
    byId: sql.actor.membershipId,
    at: sql.at,
  }
  await sql.rows(
    `insert into reading (lab_id, id, load_id, step_key, key, repeat, kind, typed, value, unit, instrument_id, calibration_id, event_at, event_from, sent_at, received_at, offset_ms, transcribed, confirmed_odd, actor_kind, request_dig, note, by_id, at, supersedes_id, reason)
     values ($1::uuid, $2::uuid, $3::uuid, $4, $5, $6, $7, $8, $9::text::numeric, $10, $11::uuid, $12::uuid, $13::timestamptz, $14, $15::timestamptz, $16::timestamptz, $17, $18, $19, $20, $21, $22, $23::uuid, $24::timestamptz, $25::uuid, $26)`,
    [
      row.labId,
      row.id,
      row.loadId,
      row.stepKey,
      row.key,
      row.repeat,
      row.kind,
      row.typed,
      row.value,
      row.unit,
      row.instrumentId,
      row.calibrationId,
      row.eventAt,
      row.eventFrom,
      row.sentAt,
      row.receivedAt,
      row.offsetMs,
      row.transcribed,
      row.confirmedOdd,
      row.actorKind,
      row.requestDig,
      row.note,
      row.byId,
      row.at,
      row.supersedesId,
      row.reason,
    ],
  )
  return ledgerContentOf('reading', row)
}
