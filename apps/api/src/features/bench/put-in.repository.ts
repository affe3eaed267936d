import type { RowsSql } from '#platform/sql-rows'

/** SQL: whether an act of a test is the start of a step that stands: one that was corrected is no start any more. */
export const startStands = (act: string, step: string) => `${act}.step_key = ${step} and ${act}.kind = 'start'
  and not exists (select from step_event later where later.lab_id = ${act}.lab_id and later.supersedes_id = ${act}.id)`

/** An open test of a design and method, with where it stands and the edition it is pinned to. */
export type PutInTest = {
  testId: string
  designId: string
  methodKey: string
  code: string
  label: string
  content: string
  replicate: number
  spare: boolean
  stands: boolean
  stepKey: string
  act: string
  opensAt: Date | null
  closesAt: Date | null
  /** When its run was started. */
  startedAt: Date | null
  designation: string
  parameters: string
}

/** @param run the step that the machine does */
export function findPutInTests(
  sql: RowsSql,
  { designId, methodKey, run }: { designId: string; methodKey: string; run: string },
): Promise<PutInTest[]> {
  return sql.rows<PutInTest>(
    `select t.id as "testId", r.design_id as "designId", t.method_key as "methodKey", i.code, t.label,
            m.emulsion_percent::text as content, t.replicate, t.purpose = 'spare' as spare,
            exists (select from test_replacement k where k.lab_id = t.lab_id and k.spare_test_id = t.id) as stands,
            d.step_key as "stepKey", d.act, d.opens_at as "opensAt", d.closes_at as "closesAt",
            begun.at as "startedAt", e.designation, e.parameters
       from design_revision r
       join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id and t.method_key = $3
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id and n.state in ('waiting', 'in-work', 'spare')
       join due d on d.lab_id = t.lab_id and d.test_id = t.id
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       join mix m on m.lab_id = t.lab_id and m.id = t.mix_id
       join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
       left join lateral (
         select s.event_at + coalesce(s.offset_ms, 0) * interval '1 millisecond' as at from step_event s
          where s.lab_id = t.lab_id and s.test_id = t.id and ${startStands('s', '$4')}
          order by s.at desc, s.written_at desc, s.id desc limit 1
       ) begun on true
      where r.lab_id = $1::uuid and r.design_id = $2::uuid
      order by t.label, i.code`,
    [sql.actor.labId, designId, methodKey, run],
  )
}

/** The step of each method that a kind of machine does. */
export type Runs = readonly { readonly method: string; readonly step: string }[]
type Asked = { readonly designId: string; readonly methodKey: string; readonly runs: Runs }

export type SoakingElsewhere = {
  testId: string
  code: string
  label: string
  designName: string
  methodKey: string
  opensAt: Date
  closesAt: Date
  settledStartAt: Date | null
  instrumentId: string | null
}

/** What soaks for the same kind of machine in other designs and methods, with when its own list lets it start. */
export function findSoakingElsewhere(sql: RowsSql, { designId, methodKey, runs }: Asked): Promise<SoakingElsewhere[]> {
  return sql.rows<SoakingElsewhere>(
    `select t.id as "testId", i.code, t.label, g.name as "designName", t.method_key as "methodKey",
            d.opens_at as "opensAt", d.closes_at as "closesAt", settled.start_at as "settledStartAt", settled.instrument_id as "instrumentId"
       from due d
       join test_event t on t.lab_id = d.lab_id and t.id = d.test_id
       join unnest($4::text[], $5::text[]) as run (method_key, step_key) on run.method_key = t.method_key and run.step_key = d.step_key
       join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
       join design g on g.lab_id = r.lab_id and g.id = r.design_id
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       left join lateral (
         select k.start_at, l.instrument_id from put_in_list_row k
           join put_in_list l on l.lab_id = k.lab_id and l.id = k.list_id
          where k.lab_id = t.lab_id and k.test_id = t.id
            and not exists (select from put_in_list later where later.lab_id = l.lab_id and later.supersedes_id = l.id)
          order by l.at desc, l.id desc limit 1
       ) settled on true
      where d.lab_id = $1::uuid and not (r.design_id = $2::uuid and t.method_key = $3)
        and d.act = 'start' and d.opens_at is not null and d.closes_at is not null
      order by d.closes_at, t.label, i.code`,
    [sql.actor.labId, designId, methodKey, ...keysOf(runs)],
  )
}

/** Runs of other designs and methods that were started after a time, with the machine that they were told to be on. */
export function findRunning(
  sql: RowsSql,
  { designId, methodKey, runs }: Asked,
  { kind, after }: { kind: string; after: Date },
): Promise<{ startedAt: Date; instrumentId: string | null }[]> {
  return sql.rows(
    `select s.event_at + coalesce(s.offset_ms, 0) * interval '1 millisecond' as "startedAt", used.id as "instrumentId"
       from test_now n
       join test_event t on t.lab_id = n.lab_id and t.id = n.test_id
       join unnest($4::text[], $5::text[]) as run (method_key, step_key) on run.method_key = t.method_key
       join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
       join step_event s on s.lab_id = t.lab_id and s.test_id = t.id and ${startStands('s', 'run.step_key')}
       left join lateral (
         select i.id from equipment_use u join instrument i on i.lab_id = u.lab_id and i.id = u.instrument_id and i.kind = $6
          where u.lab_id = s.lab_id and u.step_event_id = s.id limit 1
       ) used on true
      where n.lab_id = $1::uuid and n.state = 'in-work' and not (r.design_id = $2::uuid and t.method_key = $3)
        and s.event_at > $7::timestamptz
      order by s.event_at, s.id`,
    [sql.actor.labId, designId, methodKey, ...keysOf(runs), kind, after],
  )
}

/** Machines of a kind that are in service. */
export function findMachines(sql: RowsSql, kind: string): Promise<{ id: string; code: string; name: string }[]> {
  return sql.rows(
    `select id, code, name from instrument where lab_id = $1::uuid and kind = $2 and state <> 'out' order by code`,
    [sql.actor.labId, kind],
  )
}

/** When nobody is at the machine, and in which zone. */
export async function findBreaks(
  sql: RowsSql,
): Promise<{ zone: string; breaks: readonly { from: string; to: string }[] }> {
  const [row] = await sql.rows<{ zone: string; breaks: string }>(
    'select zone, breaks from laboratory where id = $1::uuid',
    [sql.actor.labId],
  )
  return { zone: row!.zone, breaks: JSON.parse(row!.breaks) as { from: string; to: string }[] }
}

function keysOf(runs: Runs): [string[], string[]] {
  return [runs.map(({ method }) => method), runs.map(({ step }) => step)]
}
