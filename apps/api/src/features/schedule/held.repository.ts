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

/**
 * The laboratory's zone with every test that is held, and how many undecided deviations are of no specimen: one statement,
 * as all of it is asked at once. A deviation of a batch holds the specimen cast from it, one of an oven or bath every
 * specimen that was inside. Where a decision and a spare are both waited for, the decision comes first.
 */
export async function findZoneAndHeld(sql: RowsSql): Promise<{ zone: string; elsewhere: number; held: HeldTest[] }> {
  const rows = await sql.rows<{ zone: string; elsewhere: number } & (HeldTest | { testId: null })>(
    `
    with undecided as (
      select v.id, v.test_id from deviation v
       where v.lab_id = $1::uuid
         and not exists (select from deviation_event e where e.lab_id = v.lab_id and e.deviation_id = v.id
           and e.kind in ('accept', 'void', 'repeat', 'release', 'exclude', 'close'))
    ), undecided_test as (
      select u.id, t.id as test_id
        from (select id, test_id from undecided
              union
              select l.deviation_id, l.test_id from undecided v
                join deviation_test l on l.lab_id = $1::uuid and l.deviation_id = v.id) u
        join test_event t on t.lab_id = $1::uuid and t.id = u.test_id and t.design_revision_id is not null
    ), held as (
      select coalesce(cast_from_it.id, t.id) as test_id, 'decision' as held
        from (select distinct test_id from undecided_test) u
        join test_event t on t.lab_id = $1::uuid and t.id = u.test_id
        left join lateral (
          select s.id from item_parent p
            join test_event s on s.lab_id = p.lab_id and s.item_id = p.child_id
            join test_now sn on sn.lab_id = s.lab_id and sn.test_id = s.id
           where t.method_key = 'batch' and p.lab_id = t.lab_id and p.parent_id = t.item_id
           order by sn.state in ('void', 'replaced'), s.id limit 1
        ) cast_from_it on true
      union
      select t.id, 'spare'
        from design_revision r
        join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id and t.method_key <> 'batch'
        join test_now n on n.lab_id = t.lab_id and n.test_id = t.id and n.state = 'void'
       where r.lab_id = $1::uuid and r.state in ('draft', 'in-work', 'sent-back')
         and (t.purpose <> 'spare' or exists (
           select from test_replacement k where k.lab_id = t.lab_id and k.spare_test_id = t.id))
         and exists (
           select from test_event s join test_now sn on sn.lab_id = s.lab_id and sn.test_id = s.id
            where s.lab_id = t.lab_id and s.mix_id = t.mix_id and s.method_key = t.method_key and s.purpose = 'spare'
              and s.id <> t.id and sn.state not in ('void', 'replaced')
              and not exists (select from test_replacement k where k.lab_id = s.lab_id and k.spare_test_id = s.id))
    )
    select l.zone, (select count(*)::int from undecided u where not exists (select from undecided_test ut where ut.id = u.id)) as elsewhere,
           h.test_id as "testId", h.held, i.id as "itemId", i.code, t.label, i.form, d.id as "designId", d.name as "designName",
           p.name as "projectName", t.method_key as "methodKey", n.state,
           a.id as "assigneeId", a.name as "assigneeName", a.initials as "assigneeInitials"
      from laboratory l
      left join (
        held h
        join test_event t on t.lab_id = $1::uuid and t.id = h.test_id
        join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
        join item i on i.lab_id = t.lab_id and i.id = t.item_id and i.kind = 'specimen'
        join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
        join design d on d.lab_id = r.lab_id and d.id = r.design_id
        join project p on p.lab_id = d.lab_id and p.id = d.project_id
        left join membership a on a.lab_id = n.lab_id and a.id = n.assignee_id
      ) on true
     where l.id = $1::uuid
     order by d.name, t.method_key, t.label, i.code, h.held`,
    [sql.actor.labId],
  )
  const { zone, elsewhere } = rows[0]!
  const held = new Map<string, HeldTest>()
  // Ordered by word, a decision stands before a spare.
  for (const row of rows) if (row.testId !== null && !held.has(row.testId)) held.set(row.testId, row)
  return { zone, elsewhere, held: [...held.values()] }
}
