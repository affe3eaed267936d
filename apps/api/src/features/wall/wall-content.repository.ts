import type { WallNames } from '@curebook/contract/wall-names'
import type { RowsSql } from '#platform/sql-rows'

/** That a screen looked: kept to the minute, so that a look rarely writes. */
export async function touchSeen(sql: RowsSql, screenId: string): Promise<void> {
  await sql.rows(
    `insert into wall_seen as w (lab_id, screen_id, seen_at) values ($1::uuid, $2::uuid, $3::timestamptz)
     on conflict (lab_id, screen_id) do update set seen_at = excluded.seen_at
      where w.seen_at <= excluded.seen_at - interval '1 minute'`,
    [sql.actor.labId, screenId, sql.at],
  )
}

export type WallSettings = {
  readonly name: string
  readonly zone: string
  readonly language: string
  readonly decimalSign: 'point' | 'comma'
  readonly wallNames: WallNames
}

export async function findSettings(sql: RowsSql): Promise<WallSettings> {
  const [row] = await sql.rows<WallSettings>(
    `select name, zone, language, decimal_sign as "decimalSign", wall_names as "wallNames" from laboratory where id = $1::uuid`,
    [sql.actor.labId],
  )
  return row!
}

export type WindowRow = {
  readonly testId: string
  readonly code: string
  readonly label: string
  readonly methodKey: string
  readonly stepKey: string
  readonly opensAt: Date | null
  readonly closesAt: Date | null
  readonly placeName: string | null
}

/** More than any wall shows; what is left out is what closes last. */
const mostWindows = 300

/**
 * Next acts whose window has closed lately, closes or opens soon, of everybody. A specimen waits for its batch: it is not
 * shown before what it is cast from has been weighed, unless it was begun all the same.
 */
export function findWindows(sql: RowsSql, closesFrom: Date, closesUntil: Date, opensUntil: Date): Promise<WindowRow[]> {
  return sql.rows<WindowRow>(
    `select d.test_id as "testId", i.code, t.label, t.method_key as "methodKey", d.step_key as "stepKey",
            d.opens_at as "opensAt", d.closes_at as "closesAt", p.name as "placeName"
       from due d
       join test_event t on t.lab_id = d.lab_id and t.id = d.test_id
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
       left join item_now x on x.lab_id = i.lab_id and x.item_id = i.id
       left join place p on p.lab_id = x.lab_id and p.id = x.place_id
      where d.lab_id = $1::uuid
        and (d.closes_at between $2::timestamptz and $3::timestamptz or (d.opens_at > $4::timestamptz and d.opens_at <= $5::timestamptz))
        and (n.state = 'in-work' or (select coalesce(bool_and(bn.state not in ('waiting', 'in-work')), true)
               from item_parent c
               join item b on b.lab_id = c.lab_id and b.id = c.parent_id and b.kind = 'batch'
               join test_event bt on bt.lab_id = b.lab_id and bt.item_id = b.id
               join test_now bn on bn.lab_id = bt.lab_id and bn.test_id = bt.id
              where c.lab_id = t.lab_id and c.child_id = t.item_id))
      order by least(d.closes_at, d.opens_at), t.label, i.code limit ${mostWindows}`,
    [sql.actor.labId, closesFrom, closesUntil, sql.at, opensUntil],
  )
}

export type WorkedRow = {
  readonly testId: string
  readonly methodKey: string
  readonly parametersText: string
  readonly opensAt: Date | null
  readonly closesAt: Date | null
}

/** Every specimen that is being worked on, with the window of its next act. */
export function findWorked(sql: RowsSql): Promise<WorkedRow[]> {
  return sql.rows<WorkedRow>(
    `select t.id as "testId", t.method_key as "methodKey", e.parameters as "parametersText",
            min(d.opens_at) as "opensAt", min(d.closes_at) as "closesAt"
       from test_now n
       join test_event t on t.lab_id = n.lab_id and t.id = n.test_id
       join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
       left join due d on d.lab_id = n.lab_id and d.test_id = n.test_id
      where n.lab_id = $1::uuid and n.state = 'in-work'
      group by t.id, t.method_key, e.parameters`,
    [sql.actor.labId],
  )
}

export type StayActRow = {
  readonly testId: string
  readonly step: string
  readonly act: 'start' | 'end'
  readonly at: Date
  readonly instrumentId: string | null
}

/** The standing acts of these tests, by the server's clock, with the oven or bath of the load or of the act. */
export function findStayActs(sql: RowsSql, testIds: readonly string[]): Promise<StayActRow[]> {
  return sql.rows<StayActRow>(
    `select s.test_id as "testId", s.step_key as step, s.kind as act,
            s.event_at + make_interval(secs => coalesce(s.offset_ms, 0) / 1000.0) as at, coalesce(l.instrument_id, o.id) as "instrumentId"
       from step_event s
       left join load l on l.lab_id = s.lab_id and l.id = s.load_id
       left join lateral (
         select i.id from equipment_use u join instrument i on i.lab_id = u.lab_id and i.id = u.instrument_id and i.kind in ('oven', 'bath')
          where u.lab_id = s.lab_id and u.step_event_id = s.id limit 1
       ) o on true
      where s.lab_id = $1::uuid and s.test_id = any($2::uuid[]) and s.kind in ('start', 'end')
        and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)`,
    [sql.actor.labId, testIds],
  )
}

export type OvenRow = {
  readonly id: string
  readonly code: string
  readonly name: string
  readonly kind: 'oven' | 'bath'
  readonly inService: boolean
  readonly typed: string | null
  readonly value: string | null
  readonly unit: string | null
  readonly observedAt: Date | null
}

/** Ovens and baths with the last value of their log. */
export function findOvens(sql: RowsSql): Promise<OvenRow[]> {
  return sql.rows<OvenRow>(
    `select i.id, i.code, i.name, i.kind, i.state <> 'out' as "inService", v.typed, v.value, v.unit, v.observed_at as "observedAt"
       from instrument i
       left join lateral (
         select v.typed, v.value::text as value, v.unit, v.observed_at from condition_value v
          where v.lab_id = i.lab_id and v.instrument_id = i.id
            and not exists (select from condition_value c where c.lab_id = v.lab_id and c.supersedes_id = v.id)
          order by v.observed_at desc, v.id desc limit 1
       ) v on true
      where i.lab_id = $1::uuid and i.kind in ('oven', 'bath') and i.withdrawn_at is null
      order by i.kind desc, i.code`,
    [sql.actor.labId],
  )
}

export type ActRow = {
  readonly personId: string
  readonly name: string
  readonly initials: string
  readonly methodKey: string | null
  readonly stepKey: string
  readonly place: string | null
  readonly at: Date
}

/** What members recorded since an instant: acts and readings of tests and loads; what is entered from paper is no work there and then. */
export function findActsSince(sql: RowsSql, since: Date): Promise<ActRow[]> {
  return sql.rows<ActRow>(
    `select m.id as "personId", m.name, m.initials, a."methodKey", a."stepKey", a.place, a.at
       from (
         select s.by_id, t.method_key as "methodKey", s.step_key as "stepKey", coalesce(l.place, u.code) as place, s.at, s.id
           from step_event s
           join test_event t on t.lab_id = s.lab_id and t.id = s.test_id
           left join load l on l.lab_id = s.lab_id and l.id = s.load_id
           left join lateral (
             select i.code from equipment_use e join instrument i on i.lab_id = e.lab_id and i.id = e.instrument_id
              where e.lab_id = s.lab_id and e.step_event_id = s.id order by i.code limit 1
           ) u on true
          where s.lab_id = $1::uuid and s.at >= $2::timestamptz and s.kind in ('start', 'end', 'observe') and s.event_from <> 'paper'
         union all
         select r.by_id, t.method_key, r.step_key, coalesce(l.place, i.code), r.at, r.id
           from reading r
           left join test_event t on t.lab_id = r.lab_id and t.id = r.test_id
           left join load l on l.lab_id = r.lab_id and l.id = r.load_id
           left join instrument i on i.lab_id = r.lab_id and i.id = r.instrument_id
          where r.lab_id = $1::uuid and r.at >= $2::timestamptz and r.actor_kind = 'person' and r.event_from <> 'paper'
            and num_nonnulls(r.test_id, r.load_id) = 1
       ) a
       join membership m on m.lab_id = $1::uuid and m.id = a.by_id
        and m.valid_from <= $3::timestamptz and (m.valid_until is null or m.valid_until > $3::timestamptz)
      order by a.at, a.id`,
    [sql.actor.labId, since, sql.at],
  )
}
