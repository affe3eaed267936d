import { deviationText } from './conditions.repository.ts'
import type { RowsSql } from '#platform/sql-rows'

export type TestHead = {
  designName: string | null
  projectName: string | null
  emulsionPercent: string | null
  assigneeId: string | null
  assigneeName: string | null
  assigneeInitials: string | null
  relatedTestId: string | null
}

/** What surrounds a test: its design, its person, the batch behind a specimen or the specimen behind a batch. */
export async function testHead(sql: RowsSql, testId: string): Promise<TestHead> {
  const [head] = await sql.rows<TestHead>(
    `select g.name as "designName", p.name as "projectName", x.emulsion_percent_text as "emulsionPercent",
            m.id as "assigneeId", m.name as "assigneeName", m.initials as "assigneeInitials",
            (select o.id from item_parent l join test_event o on o.lab_id = l.lab_id and o.item_id = case when l.child_id = t.item_id then l.parent_id else l.child_id end
              where l.lab_id = t.lab_id and t.item_id in (l.child_id, l.parent_id) limit 1) as "relatedTestId"
       from test_event t
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
       left join membership m on m.lab_id = n.lab_id and m.id = n.assignee_id
       left join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
       left join design g on g.lab_id = r.lab_id and g.id = r.design_id
       left join project p on p.lab_id = g.lab_id and p.id = g.project_id
       left join mix x on x.lab_id = t.lab_id and x.id = t.mix_id
      where t.lab_id = $1::uuid and t.id = $2::uuid`,
    [sql.actor.labId, testId],
  )
  return head!
}

/** Batch targets in g by component, for the specimen that the batch is cast into. */
export async function batchTargets(
  sql: RowsSql,
  mixId: string,
  relatedTestId: string,
): Promise<Record<string, string>> {
  const rows = await sql.rows<{ kind: string; target: string }>(
    `select c.kind, c.target_g::text as target from mix_component c
      where c.lab_id = $1::uuid and c.mix_id = $2::uuid and c.method_key = (select method_key from test_event where lab_id = $1::uuid and id = $3::uuid)`,
    [sql.actor.labId, mixId, relatedTestId],
  )
  return Object.fromEntries(rows.map(({ kind, target }) => [kind, target]))
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
  }[]
> {
  return sql.rows(
    `select id, code, name, kind, range::text as capacity, unit as "capacityUnit", resolution::text as resolution from instrument
      where lab_id = $1::uuid and kind = any($2::text[]) and state <> 'out' order by code`,
    [sql.actor.labId, kinds],
  )
}

export async function deviationsOf(
  sql: RowsSql,
  testId: string,
): Promise<{ id: string; kind: string; text: string; decision: string | null }[]> {
  return sql.rows(
    `select d.id, d.kind, ${deviationText('d')} as text, (select e.kind || ': ' || e.reason from deviation_event e where e.lab_id = d.lab_id and e.deviation_id = d.id and e.kind in ('accept', 'void', 'repeat', 'release') order by e.at desc limit 1) as decision
       from deviation d
      where d.lab_id = $1::uuid and (d.test_id = $2::uuid or exists (
        select from deviation_test l where l.lab_id = d.lab_id and l.deviation_id = d.id and l.test_id = $2::uuid))
      order by d.at`,
    [sql.actor.labId, testId],
  )
}
