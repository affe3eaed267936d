import type { RowsSql } from '#platform/sql-rows'

export type DueRow = {
  testId: string
  itemId: string
  code: string
  label: string
  form: string
  designId: string | null
  designName: string | null
  methodKey: string
  stepKey: string
  act: 'start' | 'end' | 'reading'
  opensAt: Date | null
  closesAt: Date | null
  emulsionPercent: string | null
}

const dueColumns = `
  d.test_id as "testId", t.item_id as "itemId", i.code, t.label, coalesce(i.form, 'batch') as form, g.id as "designId", g.name as "designName",
  t.method_key as "methodKey", d.step_key as "stepKey", d.act, d.opens_at as "opensAt", d.closes_at as "closesAt", x.emulsion_percent_text as "emulsionPercent"`

const dueJoins = `
  from due d
  join test_event t on t.lab_id = d.lab_id and t.id = d.test_id
  join item i on i.lab_id = t.lab_id and i.id = t.item_id
  left join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
  left join design g on g.lab_id = r.lab_id and g.id = r.design_id
  left join mix x on x.lab_id = t.lab_id and x.id = t.mix_id`

/**
 * A specimen waits for its batch: it is not offered before what it is cast from has been weighed. Asked for each row by
 * itself, which took a third of the time that joining it did.
 */
const batchDone = `
  (select coalesce(bool_and(bn.state not in ('waiting', 'in-work')), true)
     from item_parent p
     join item b on b.lab_id = p.lab_id and b.id = p.parent_id and b.kind = 'batch'
     join test_event bt on bt.lab_id = b.lab_id and bt.item_id = b.id
     join test_now bn on bn.lab_id = bt.lab_id and bn.test_id = bt.id
    where p.lab_id = t.lab_id and p.child_id = t.item_id)`

/** What is due for one person, or for all: the next act of each test, soonest closing first. */
export async function dueRows(
  sql: RowsSql,
  { assigneeId, limit }: { assigneeId: string | null; limit: number },
): Promise<DueRow[]> {
  return sql.rows<DueRow>(
    `select ${dueColumns} ${dueJoins}
      where d.lab_id = $1::uuid and ($2::uuid is null or d.assignee_id = $2::uuid) and ${batchDone}
      order by d.closes_at nulls last, d.opens_at nulls first, t.label, i.code limit $3`,
    [sql.actor.labId, assigneeId, limit],
  )
}

/** The due rows of one act, for a rack or a bulk confirmation. */
export async function dueRowsOfStep(
  sql: RowsSql,
  { methodKey, stepKey, designId }: { methodKey: string; stepKey: string; designId: string | null },
): Promise<DueRow[]> {
  return sql.rows<DueRow>(
    `select ${dueColumns} ${dueJoins}
      where d.lab_id = $1::uuid and t.method_key = $2 and d.step_key = $3 and ($4::uuid is null or g.id = $4::uuid) and ${batchDone}
      order by x.ordinal, t.label, i.code`,
    [sql.actor.labId, methodKey, stepKey, designId],
  )
}

/** What a code means here: the item, and its test that is worked on next (a specimen's batch first). */
export async function lookUpCode(
  sql: RowsSql,
  code: string,
): Promise<{ itemId: string; code: string; label: string; testId: string | null; state: string | null }[]> {
  return sql.rows(
    `select i.id as "itemId", i.code, coalesce(t.label, i.name, '') as label, t.id as "testId", n.state
       from item i
       left join item_parent p on p.lab_id = i.lab_id and p.child_id = i.id
       left join item b on b.lab_id = p.lab_id and b.id = p.parent_id and b.kind = 'batch'
       left join test_event t on t.lab_id = i.lab_id and t.item_id in (i.id, b.id)
       left join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
      where i.lab_id = $1::uuid and upper(i.code) = upper($2)
      order by (n.state in ('waiting', 'in-work')) desc nulls last,
        -- Of what is open the batch comes first; when nothing is, the specimen itself.
        case when n.state in ('waiting', 'in-work') then t.item_id <> i.id else t.item_id = i.id end desc nulls last`,
    [sql.actor.labId, code],
  )
}
