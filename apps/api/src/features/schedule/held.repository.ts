import type { RowsSql } from '#platform/sql-rows'

/** A specimen's test that waits for a person: a deviation nobody has decided, or a spare that could take its place. */
export type HeldTest = {
  testId: string
  held: 'decision' | 'spare'
  itemId: string
  code: string
  label: string
  form: string
  designId: string
  designName: string
  projectName: string
  methodKey: string
  state: string
  assigneeId: string | null
  assigneeName: string | null
  assigneeInitials: string | null
}

type Waiting = {
  zone: string
  undecided: { deviationId: string; testId: string | null }[]
  lost: string[]
}

/**
 * The laboratory's zone, every undecided deviation with the tests that it is about, and void specimens of series in work.
 * Kept small: it is asked at every look, and planning one statement with all names took longer than the rest of the schedule.
 */
export async function findWaiting(sql: RowsSql): Promise<Waiting> {
  const [row] = await sql.rows<Waiting>(
    `
    with undecided as materialized (
      select v.id, v.test_id from deviation v
       where v.lab_id = $1::uuid
         and not exists (select from deviation_event e where e.lab_id = v.lab_id and e.deviation_id = v.id
           and e.kind in ('accept', 'void', 'repeat', 'release', 'exclude', 'close'))
    )
    select l.zone,
           (select coalesce(jsonb_agg(jsonb_build_object('deviationId', u.id, 'testId', coalesce(u.test_id, k.test_id))), '[]')
              from undecided u left join deviation_test k on k.lab_id = $1::uuid and k.deviation_id = u.id) as undecided,
           array(
             select t.id::text from test_now n
               join test_event t on t.lab_id = n.lab_id and t.id = n.test_id and t.method_key <> 'batch'
               join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
              where n.lab_id = $1::uuid and n.state = 'void' and r.state in ('draft', 'in-work', 'sent-back')) as lost
      from laboratory l where l.id = $1::uuid`,
    [sql.actor.labId],
  )
  return row!
}

/**
 * What is held, as rows, and how many undecided deviations are of no specimen. A deviation of a batch holds the specimen cast
 * from it, one of an oven or bath every specimen that was inside. Where a decision and a spare are both waited for, the
 * decision comes first. Without anything waiting nothing is asked.
 */
export async function findHeld(
  sql: RowsSql,
  { undecided, lost }: Pick<Waiting, 'undecided' | 'lost'>,
): Promise<{ held: HeldTest[]; elsewhere: number }> {
  const asked = [...new Set([...undecided.flatMap(({ testId }) => (testId === null ? [] : [testId])), ...lost])]
  const found = asked.length === 0 ? [] : await findNamed(sql, asked)
  const bySource = new Map(found.map((row) => [row.askedId, row]))
  const held = new Map<string, HeldTest>()
  const somewhere = new Set<string>()
  for (const { deviationId, testId } of undecided) {
    const row = testId === null ? undefined : bySource.get(testId)
    if (!row) continue
    somewhere.add(deviationId)
    held.set(row.testId, { ...row, held: 'decision' })
  }
  for (const id of lost) {
    const row = bySource.get(id)
    if (row?.spareReady && !held.has(row.testId)) held.set(row.testId, { ...row, held: 'spare' })
  }
  const all = new Set(undecided.map(({ deviationId }) => deviationId))
  return {
    held: found.flatMap(({ testId }) => {
      const row = held.get(testId)
      return row !== undefined && held.delete(testId) ? [row] : []
    }),
    elsewhere: all.size - somewhere.size,
  }
}

type NamedTest = Omit<HeldTest, 'held'> & { askedId: string; spareReady: boolean }

/** Tests with their names; a batch as the specimen that is cast from it. A spare is ready where it could stand in the place. */
function findNamed(sql: RowsSql, ids: readonly string[]): Promise<NamedTest[]> {
  return sql.rows<NamedTest>(
    `
    with asked as materialized (
      select t.id as asked_id, coalesce((
               select s.id from item_parent c
                 join test_event s on s.lab_id = c.lab_id and s.item_id = c.child_id
                 join test_now sn on sn.lab_id = s.lab_id and sn.test_id = s.id
                where t.method_key = 'batch' and c.lab_id = t.lab_id and c.parent_id = t.item_id
                order by sn.state in ('void', 'replaced'), s.id limit 1), t.id) as id
        from test_event t where t.lab_id = $1::uuid and t.id = any($2::uuid[])
    )
    select asked.asked_id as "askedId", t.id as "testId", i.id as "itemId", i.code, t.label, i.form, d.id as "designId",
           d.name as "designName", p.name as "projectName", t.method_key as "methodKey", n.state,
           a.id as "assigneeId", a.name as "assigneeName", a.initials as "assigneeInitials",
           n.state = 'void'
             and (t.purpose <> 'spare' or exists (
               select from test_replacement k where k.lab_id = t.lab_id and k.spare_test_id = t.id))
             and exists (
               select from test_event s join test_now sn on sn.lab_id = s.lab_id and sn.test_id = s.id
                where s.lab_id = t.lab_id and s.mix_id = t.mix_id and s.method_key = t.method_key and s.purpose = 'spare'
                  and s.id <> t.id and sn.state not in ('void', 'replaced')
                  and not exists (select from test_replacement k where k.lab_id = s.lab_id and k.spare_test_id = s.id)
             ) as "spareReady"
      from asked
      join test_event t on t.lab_id = $1::uuid and t.id = asked.id
      join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
      join item i on i.lab_id = t.lab_id and i.id = t.item_id and i.kind = 'specimen'
      join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
      join design d on d.lab_id = r.lab_id and d.id = r.design_id
      join project p on p.lab_id = d.lab_id and p.id = d.project_id
      left join membership a on a.lab_id = n.lab_id and a.id = n.assignee_id
     order by d.name, t.method_key, t.label, i.code`,
    [sql.actor.labId, ids],
  )
}
