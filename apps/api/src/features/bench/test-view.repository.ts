import type { TestView } from '@curebook/contract/bench'
import { deviationText } from './excursions.repository.ts'
import { decidingKinds } from './holds.repository.ts'
import type { RowsSql } from '#platform/sql-rows'

export type TestHead = {
  designName: string | null
  projectName: string | null
  emulsionPercent: string | null
  assigneeId: string | null
  assigneeName: string | null
  assigneeInitials: string | null
  relatedTestId: string | null
  /** The method of that test and the step that it waits for; null once all of it is done, or it is void. */
  relatedMethodKey: string | null
  relatedStepKey: string | null
  batchOpen: boolean
}

/** What surrounds a test: its design, its person, the batch behind a specimen or the specimen behind a batch. */
export async function testHead(sql: RowsSql, testId: string): Promise<TestHead> {
  const [head] = await sql.rows<TestHead>(
    `select g.name as "designName", p.name as "projectName", x.emulsion_percent_text as "emulsionPercent",
            m.id as "assigneeId", m.name as "assigneeName", m.initials as "assigneeInitials",
            o.id as "relatedTestId", o.method_key as "relatedMethodKey", o.step_key as "relatedStepKey",
            exists (select from item_parent l join test_event b on b.lab_id = l.lab_id and b.item_id = l.parent_id and b.method_key = 'batch'
                      join test_now s on s.lab_id = b.lab_id and s.test_id = b.id and s.state in ('waiting', 'in-work')
                     where l.lab_id = t.lab_id and l.child_id = t.item_id) as "batchOpen"
       from test_event t
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
       left join membership m on m.lab_id = n.lab_id and m.id = n.assignee_id
       left join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
       left join design g on g.lab_id = r.lab_id and g.id = r.design_id
       left join project p on p.lab_id = g.lab_id and p.id = g.project_id
       left join lateral (
         select o.id, o.method_key, case when s.state in ('waiting', 'in-work') then s.step_key end as step_key
           from item_parent l
           join test_event o on o.lab_id = l.lab_id and o.item_id = case when l.child_id = t.item_id then l.parent_id else l.child_id end
           join test_now s on s.lab_id = o.lab_id and s.test_id = o.id
          where l.lab_id = t.lab_id and t.item_id in (l.child_id, l.parent_id) limit 1
       ) o on true
       left join mix x on x.lab_id = t.lab_id and x.id = t.mix_id
      where t.lab_id = $1::uuid and t.id = $2::uuid`,
    [sql.actor.labId, testId],
  )
  return head!
}

/** The other specimens of the same content and test. */
export async function siblingsOf(
  sql: RowsSql,
  test: { id: string; mixId: string | null; methodKey: string; revisionId: string | null },
): Promise<{ testId: string; code: string; label: string }[]> {
  if (!test.mixId) return []
  return sql.rows(
    `select t.id as "testId", i.code, t.label from test_event t
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id and n.state not in ('void', 'replaced')
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
      where t.lab_id = $1::uuid and t.mix_id = $2::uuid and t.method_key = $3 and t.id <> $4::uuid order by t.label, i.code`,
    [sql.actor.labId, test.mixId, test.methodKey, test.id],
  )
}

export async function instrumentsFor(
  sql: RowsSql,
  kinds: readonly string[],
): Promise<
  {
    id: string
    code: string
    name: string
    kind: string
    capacity: string | null
    capacityUnit: string | null
    resolution: string | null
    line: TestView['instruments'][number]['line']
  }[]
> {
  return sql.rows(
    `select i.id, i.code, i.name, i.kind, i.range::text as capacity, i.unit as "capacityUnit", i.resolution::text as resolution,
            (select json_build_object('baudRate', l.baud_rate, 'dataBits', l.data_bits, 'parity', l.parity,
                                      'stopBits', l.stop_bits, 'example', l.example, 'shown', l.shown)
               from instrument_line l
              where l.lab_id = i.lab_id and l.instrument_id = i.id
                and not exists (select from instrument_line s where s.lab_id = l.lab_id and s.supersedes_id = l.id)) as line
       from instrument i
      where i.lab_id = $1::uuid and i.kind = any($2::text[]) and i.state <> 'out' order by i.code`,
    [sql.actor.labId, kinds],
  )
}

export async function deviationsOf(
  sql: RowsSql,
  testId: string,
): Promise<Omit<TestView['deviations'][number], 'waiting'>[]> {
  return sql.rows(
    `select d.id, d.kind, ${deviationText('d')} as text, d.inside_word as "insideWord", d.test_id is not null as "isOfTest",
            greatest(1, (select count(distinct r.design_id) from deviation_test l
                           join test_event t on t.lab_id = l.lab_id and t.id = l.test_id
                           join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
                          where l.lab_id = d.lab_id and l.deviation_id = d.id))::int as designs,
            (select e.kind || ': ' || e.reason from deviation_event e where e.lab_id = d.lab_id and e.deviation_id = d.id and e.kind in ${decidingKinds} order by e.at desc, e.id desc limit 1) as decision
       from deviation d
      where d.lab_id = $1::uuid and (d.test_id = $2::uuid or exists (
        select from deviation_test l where l.lab_id = d.lab_id and l.deviation_id = d.id and l.test_id = $2::uuid))
      order by d.at, d.id`,
    [sql.actor.labId, testId],
  )
}
