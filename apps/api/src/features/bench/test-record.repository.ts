import type { MachineFactor } from '@curebook/trade/procedure/declaration'
import type { RowsSql } from '#platform/sql-rows'
import type { BatchWeighing, OpenedSlot, SetupValue, Slot, StandingEvent, TestRecord } from './test-record.ts'

type TestRow = Omit<
  TestRecord,
  'slots' | 'opened' | 'batchWeighings' | 'events' | 'machine' | 'inputs' | 'parameters'
> & {
  readonly parametersText: string
}

const testColumns = `
  t.id, t.item_id as "itemId", i.code, t.label, coalesce(i.form, 'batch') as form, t.method_key as "methodKey",
  t.edition_id as "editionId", e.dig as "editionDigest", e.designation, e.parameters as "parametersText", t.computation,
  t.mix_id as "mixId", t.design_revision_id as "revisionId", r.state as "revisionState", r.design_id as "designId",
  t.project_id as "projectId", p.client_id as "clientId", t.purpose, t.replicate, n.state, n.counts,
  n.assignee_id as "assigneeId"`

const testJoins = `
  from test_event t
  join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
  join item i on i.lab_id = t.lab_id and i.id = t.item_id
  join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
  left join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
  left join project p on p.lab_id = t.lab_id and p.id = t.project_id`

/** `offsetMs` is of the reading of the slot's chain that told when the act was. */
const slotColumns = `
  n.test_id as "testId", n.step_key as step, n.key, n.repeat, n.reading_id as "readingId", n.typed, n.value::text as value, n.unit,
  n.choice, n.event_at as at, n.counts,
  coalesce((
    select max(abs(r.offset_ms)) from reading r
     where r.lab_id = n.lab_id and r.test_id = n.test_id and r.step_key = n.step_key and r.key = n.key and r.repeat = n.repeat
       and r.event_at + make_interval(secs => coalesce(r.offset_ms, 0) / 1000.0) = n.event_at
  ), 0)::float8 as "offsetMs"`

/**
 * Loads the tests of these ids, in the order of the ids given; tests of other laboratories are simply not there.
 * With `lock` every `test_now` row is locked first, in one order everywhere, so that two posts of one test's last readings
 * follow one another; with a batch also what is cast from it, whose formula may take its weighings.
 */
export async function loadTests(
  sql: RowsSql,
  ids: readonly string[],
  { lock = false }: { lock?: boolean } = {},
): Promise<readonly TestRecord[]> {
  const lab = sql.actor.labId
  // Sent together; the server runs them one after another, so the locks are held before anything is read.
  const [, tests, slots, opened, weighed, events, machines, inputs] = await Promise.all([
    lock
      ? sql.rows(
          // As one list of ids: with "or … in (select …)" every test of the laboratory would be read to lock a few.
          `select n.test_id from test_now n
            where n.lab_id = $1::uuid and n.test_id = any(array(
              select unnest($2::uuid[])
              union
              select t.id from test_event b
                join item_parent l on l.lab_id = b.lab_id and l.parent_id = b.item_id
                join test_event t on t.lab_id = l.lab_id and t.item_id = l.child_id
               where b.lab_id = $1::uuid and b.id = any($2::uuid[]) and b.method_key = 'batch'))
            order by n.test_id for update of n`,
          [lab, ids],
        )
      : Promise.resolve([]),
    sql.rows<TestRow>(`select ${testColumns} ${testJoins} where t.lab_id = $1::uuid and t.id = any($2::uuid[])`, [
      lab,
      ids,
    ]),
    sql.rows<Omit<Slot, 'at'> & { testId: string; at: Date }>(
      `select ${slotColumns} from slot_now n where n.lab_id = $1::uuid and n.test_id = any($2::uuid[])`,
      [lab, ids],
    ),
    sql.rows<OpenedSlot & { testId: string }>(
      `select w.test_id as "testId", r.step_key as step, r.key, r.repeat, r.id as "readingId", w.reason
         from reading_withdrawal w join reading r on r.lab_id = w.lab_id and r.id = w.reading_id
        where w.lab_id = $1::uuid and w.test_id = any($2::uuid[])
          and not exists (select from reading c where c.lab_id = r.lab_id and c.supersedes_id = r.id)`,
      [lab, ids],
    ),
    sql.rows<BatchWeighing & { testId: string }>(
      `select t.id as "testId", n.key, n.reading_id as "readingId", n.typed, n.value::text as value, n.unit, n.choice, n.counts
         from test_event t
         join item_parent l on l.lab_id = t.lab_id and l.child_id = t.item_id
         join test_event b on b.lab_id = l.lab_id and b.item_id = l.parent_id and b.method_key = 'batch'
         join slot_now n on n.lab_id = b.lab_id and n.test_id = b.id and n.repeat = 1
        where t.lab_id = $1::uuid and t.id = any($2::uuid[])`,
      [lab, ids],
    ),
    sql.rows<{
      testId: string
      id: string
      step: string
      kind: 'start' | 'end'
      eventAt: Date
      receivedAt: Date
      offsetMs: number | null
    }>(
      `select s.test_id as "testId", s.id, s.step_key as step, s.kind, s.event_at as "eventAt", s.received_at as "receivedAt", s.offset_ms::float8 as "offsetMs"
         from step_event s
        where s.lab_id = $1::uuid and s.test_id = any($2::uuid[]) and s.kind in ('start', 'end')
          and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)`,
      [lab, ids],
    ),
    loadMachines(sql, ids),
    loadInputs(sql, ids),
  ])
  const byId = new Map(tests.map((row) => [row.id, row]))
  return ids.flatMap((id) => {
    const row = byId.get(id)
    if (!row) return []
    const { parametersText, ...rest } = row
    return [
      {
        ...rest,
        parameters: JSON.parse(parametersText) as TestRecord['parameters'],
        slots: slots
          .filter(({ testId }) => testId === id)
          .map(({ testId: _, at, ...slot }) => ({ ...slot, at: at.toISOString() })),
        opened: opened.filter(({ testId }) => testId === id).map(({ testId: _, ...slot }) => slot),
        batchWeighings: weighed.filter(({ testId }) => testId === id).map(({ testId: _, ...slot }) => slot),
        events: events.filter(({ testId }) => testId === id).map(standing),
        machine: machines.get(id) ?? null,
        inputs: inputs.get(id) ?? {},
      },
    ]
  })
}

function standing(row: {
  id: string
  step: string
  kind: 'start' | 'end'
  eventAt: Date
  receivedAt: Date
  offsetMs: number | null
}): StandingEvent {
  const offsetMs = row.offsetMs ?? 0
  return {
    id: row.id,
    step: row.step,
    kind: row.kind,
    at: new Date(row.eventAt.getTime() + offsetMs).toISOString(),
    receivedAt: row.receivedAt.toISOString(),
    offsetMs,
  }
}

/**
 * The machine that each test was run on, with the factors in force on the day of the run, one for each unit. The day is the
 * laboratory's, as a factor's own is, by the server's clock.
 */
async function loadMachines(sql: RowsSql, ids: readonly string[]) {
  const rows = await sql.rows<{
    testId: string
    id: string
    code: string
    factorId: string | null
    value: string
    unit: string
    edition: string
    effectiveFrom: string
  }>(
    `select s.test_id as "testId", i.id, i.code, f.id as "factorId", f.value_text as value, f.unit, f.edition, f.effective_from::text as "effectiveFrom"
       from step_event s
       join laboratory l on l.id = s.lab_id
      cross join lateral (
         select ((s.event_at + make_interval(secs => coalesce(s.offset_ms, 0) / 1000.0)) at time zone l.zone)::date as day
       ) run
       join equipment_use u on u.lab_id = s.lab_id and u.step_event_id = s.id
       join instrument i on i.lab_id = u.lab_id and i.id = u.instrument_id and i.kind in ('wet-track-machine', 'loaded-wheel')
       left join lateral (
         select distinct on (f.key, f.unit) f.*
           from instrument_factor f
          where f.lab_id = i.lab_id and f.instrument_id = i.id and f.effective_from <= run.day
            and not exists (select from instrument_factor c where c.lab_id = f.lab_id and c.supersedes_id = f.id and c.effective_from <= run.day)
          order by f.key, f.unit, f.effective_from desc, f.at desc, f.id desc
       ) f on true
      where s.lab_id = $1::uuid and s.test_id = any($2::uuid[])
        and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)`,
    [sql.actor.labId, ids],
  )
  const machines = new Map<string, { id: string; code: string; factors: MachineFactor[] }>()
  for (const { testId, id, code, factorId, value, unit, edition } of rows) {
    const machine = machines.get(testId) ?? { id, code, factors: [] }
    if (factorId && !machine.factors.some((factor) => factor.id === factorId))
      machine.factors.push({ id: factorId, value, unit, source: `${code}, ${edition}` })
    machines.set(testId, machine)
  }
  return machines
}

/** Residue and aggregate moisture of the revision behind each test, as entered. */
async function loadInputs(sql: RowsSql, ids: readonly string[]) {
  const rows = await sql.rows<{ testId: string; key: string } & SetupValue>(
    `select t.id as "testId", case when v.id = r.residue_result_id then 'residue' else 'moisture' end as key,
            v.id, v.value::text as value, v.unit, v.source
       from test_event t
       join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
       join result v on v.lab_id = r.lab_id and v.id in (r.residue_result_id, r.moisture_result_id)
      where t.lab_id = $1::uuid and t.id = any($2::uuid[])`,
    [sql.actor.labId, ids],
  )
  const inputs = new Map<string, Record<string, SetupValue>>()
  for (const { testId, key, ...value } of rows) inputs.set(testId, { ...inputs.get(testId), [key]: value })
  return inputs
}

/** Tests of these methods that are made of what was cast from a batch, by the batch's test. */
export function castFrom(
  sql: RowsSql,
  batchTestIds: readonly string[],
  methodKeys: readonly string[],
): Promise<{ batchTestId: string; testId: string }[]> {
  return sql.rows(
    `select b.id as "batchTestId", t.id as "testId"
       from test_event b
       join item_parent l on l.lab_id = b.lab_id and l.parent_id = b.item_id
       join test_event t on t.lab_id = l.lab_id and t.item_id = l.child_id and t.method_key = any($3::text[])
      where b.lab_id = $1::uuid and b.id = any($2::uuid[]) and b.method_key = 'batch'
      order by t.id`,
    [sql.actor.labId, batchTestIds, methodKeys],
  )
}
