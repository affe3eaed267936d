import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { weighedAgainPattern } from './correction-reason.ts'
import { waitsSql } from './holds.repository.ts'
import { writeProjections } from './projection-writer.ts'
import { methodOf } from './settle.ts'
import type { RowsSql } from '#platform/sql-rows'
import { standingOf } from './standing.ts'
import { loadTests } from './test-record.repository.ts'

export type ProjectionDifference = {
  readonly projection: 'test_now' | 'slot_now' | 'due'
  readonly testId: string
  readonly stored: string
  readonly rebuilt: string
}

const effective = (table: string) =>
  `${table}.event_at + make_interval(secs => coalesce(${table}.offset_ms, 0) / 1000.0)`

/**
 * What stands in each slot by the readings alone: the end of each chain of corrections, unless it was taken back. The act
 * stays when its first reading says, unless a correction says that it was weighed again, or the one before was taken back.
 */
const slotsFromReadings = `
  with recursive chain as (
    select r.id, r.test_id, ${effective('r')} as acted_at
      from reading r where r.lab_id = $1::uuid and r.test_id is not null and r.supersedes_id is null
    union all
    select c.id, c.test_id, case when c.reason ~* $2 or exists (select from reading_withdrawal w where w.lab_id = $1::uuid and w.reading_id = chain.id) then ${effective('c')} else chain.acted_at end
      from chain join reading c on c.lab_id = $1::uuid and c.supersedes_id = chain.id
  )
  select r.test_id, r.step_key, r.key, r.repeat, r.id as reading_id, r.typed, r.value, r.unit, r.choice, chain.acted_at as event_at
    from chain join reading r on r.lab_id = $1::uuid and r.id = chain.id
   where not exists (select from reading c where c.lab_id = r.lab_id and c.supersedes_id = r.id)
     and not exists (select from reading_withdrawal w where w.lab_id = r.lab_id and w.reading_id = r.id)`

/**
 * Compares the projections with what the records say. It rebuilds them on the way: the caller takes the transaction back.
 * Urgency is left out: it moves with the clock.
 */
export async function checkProjections(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
): Promise<readonly ProjectionDifference[]> {
  const before = await snapshot(sql)
  await rebuildProjections(sql, methods)
  const after = await snapshot(sql)
  const keys = [...new Set([...before.keys(), ...after.keys()])].sort()
  return keys.flatMap((key) => {
    const [stored, rebuilt] = [before.get(key) ?? 'nothing', after.get(key) ?? 'nothing']
    const [projection, testId] = key.split(' ') as [ProjectionDifference['projection'], string]
    return stored === rebuilt ? [] : [{ projection, testId, stored, rebuilt }]
  })
}

/** Ended tests and who has each, by the records alone; where the others stand follows from their readings and acts. */
const standingsFromRecords = `
  select t.id as test_id,
         case when exists (select from test_replacement k where k.lab_id = t.lab_id and k.void_test_id = t.id) then 'replaced'
              when exists (select from step_event v where v.lab_id = t.lab_id and v.test_id = t.id and v.kind = 'void'
                and not exists (select from step_event c where c.lab_id = v.lab_id and c.supersedes_id = v.id)) then 'void'
              else 'waiting' end as state,
         (select a.to_member_id from assignment a where a.lab_id = t.lab_id and a.test_id = t.id and a.step_key is null
            and not exists (select from assignment c where c.lab_id = a.lab_id and c.supersedes_id = a.id)) as assignee_id
    from test_event t
   where t.lab_id = $1::uuid`

/** Rebuilds `slot_now` from readings, then `test_now` and `due` from the records. */
export async function rebuildProjections(sql: RowsSql, methods: readonly MethodDeclaration[]): Promise<void> {
  const lab = sql.actor.labId
  await sql.rows('select test_id from test_now where lab_id = $1::uuid order by test_id for update', [lab])
  await sql.rows('delete from slot_now where lab_id = $1::uuid', [lab])
  await sql.rows(
    `insert into slot_now (lab_id, test_id, step_key, key, repeat, reading_id, typed, value, unit, choice, event_at, counts) select $1::uuid, s.*, not ${waitsSql('$1::uuid', 's.reading_id')} from (${slotsFromReadings}) s`,
    [lab, weighedAgainPattern],
  )
  await sql.rows(
    `insert into test_now (lab_id, test_id, state, step_key, steps_done, steps_total, counts, assignee_id)
     select $1::uuid, s.test_id, s.state, null, 0, 0, true, s.assignee_id from (${standingsFromRecords}) s
     on conflict (lab_id, test_id) do update set state = excluded.state, assignee_id = excluded.assignee_id`,
    [lab],
  )
  const ids = (
    await sql.rows<{ id: string }>('select test_id as id from test_now where lab_id = $1::uuid order by test_id', [lab])
  ).map(({ id }) => id)
  for (let start = 0; start < ids.length; start += 200)
    for (const record of await loadTests(sql, ids.slice(start, start + 200)))
      await writeProjections(sql, record, standingOf(methodOf(methods, record.methodKey), record, sql.at.toISOString()))
}

async function snapshot(sql: RowsSql): Promise<Map<string, string>> {
  const rows = await sql.rows<{ key: string; body: string }>(
    `select 'test_now ' || test_id as key, jsonb_build_array(state, step_key, steps_done, steps_total, counts, assignee_id)::text as body from test_now where lab_id = $1::uuid
     union all
     select 'slot_now ' || test_id || ' ' || step_key || '/' || key || '/' || repeat, jsonb_build_array(reading_id, typed, value::text, unit, choice, event_at, counts)::text from slot_now where lab_id = $1::uuid
     union all
     select 'due ' || test_id || ' ' || step_key, jsonb_build_array(act, window_key, opens_at, closes_at, assignee_id, project_id)::text from due where lab_id = $1::uuid`,
    [sql.actor.labId],
  )
  return new Map(rows.map(({ key, body }) => [key, body]))
}
