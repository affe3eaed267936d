import type { RowsSql } from '#platform/sql-rows'

/** A specimen of a design with the batch that it is cast from. */
export type CastableRow = {
  designId: string
  methodKey: string
  testId: string
  batchTestId: string
  code: string
  label: string
  content: string
  replicate: number
  spare: boolean
  state: string
  batchState: string
  assigneeId: string | null
  assigneeName: string | null
  assigneeInitials: string | null
}

/** Every specimen of these designs, cast or not: the order of what is left follows from the whole. */
export async function findCastables(sql: RowsSql, designIds: readonly string[]): Promise<CastableRow[]> {
  if (designIds.length === 0) return []
  return sql.rows<CastableRow>(
    `select r.design_id as "designId", t.method_key as "methodKey", t.id as "testId", b.id as "batchTestId", i.code, t.label,
            m.emulsion_percent::text as content, t.replicate, t.purpose = 'spare' as spare, n.state, bn.state as "batchState",
            a.id as "assigneeId", a.name as "assigneeName", a.initials as "assigneeInitials"
       from design_revision r
       join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id and t.method_key <> 'batch'
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       join mix m on m.lab_id = t.lab_id and m.id = t.mix_id
       join item_parent p on p.lab_id = i.lab_id and p.child_id = i.id
       join test_event b on b.lab_id = p.lab_id and b.item_id = p.parent_id and b.method_key = 'batch'
       join test_now bn on bn.lab_id = b.lab_id and bn.test_id = b.id
       left join membership a on a.lab_id = bn.lab_id and a.id = bn.assignee_id
      where r.lab_id = $1::uuid and r.design_id = any($2::uuid[])
      order by t.method_key, t.label, i.code`,
    [sql.actor.labId, designIds],
  )
}
