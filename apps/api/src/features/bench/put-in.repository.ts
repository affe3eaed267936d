import type { RowsSql } from '#platform/sql-rows'

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
          where s.lab_id = t.lab_id and s.test_id = t.id and s.step_key = $4 and s.kind = 'start'
            and not exists (select from step_event k where k.lab_id = s.lab_id and k.supersedes_id = s.id)
          order by s.at desc, s.written_at desc limit 1
       ) begun on true
      where r.lab_id = $1::uuid and r.design_id = $2::uuid
      order by t.label, i.code`,
    [sql.actor.labId, designId, methodKey, run],
  )
}
