import type { PanelTestPoint } from '@curebook/trade/specification/panel-tests'
import type { RowsSql } from '#platform/sql-rows'

/** A number with its unit, or the key of a class. */
export type PanelTestRow = Omit<PanelTestPoint, 'limitKey' | 'value' | 'unit'> & {
  readonly resultKey: string
  readonly value: string | null
  readonly unit: string | null
  readonly choice: string | null
}

/** Results of tests beside the series that are finished and count, of this revision and all before it. */
export function findPanelTests(
  sql: RowsSql,
  { designId, upTo, methodKeys }: { designId: string; upTo: number; methodKeys: readonly string[] },
): Promise<PanelTestRow[]> {
  return sql.rows<PanelTestRow>(
    `select t.id as "testId", t.method_key as "methodKey", i.code, t.label, m.emulsion_percent_text as "emulsionPercent",
            y.id as "resultId", y.key as "resultKey", y.value_text as value, y.unit, y.choice
       from design_revision r
       join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id and t.method_key = any($4::text[])
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id and n.state = 'done'
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       left join mix m on m.lab_id = t.lab_id and m.id = t.mix_id
       join result y on y.lab_id = t.lab_id and y.test_id = t.id and y.made_by = 'computed' and (y.value is not null or y.choice is not null)
        and not exists (select from result c where c.lab_id = y.lab_id and c.supersedes_id = y.id)
       left join test_replacement k on k.lab_id = t.lab_id and k.spare_test_id = t.id
      where r.lab_id = $1::uuid and r.design_id = $2::uuid and r.number <= $3::int
        and (t.purpose <> 'spare' or k.id is not null)
      order by t.label, i.code, y.key, y.unit`,
    [sql.actor.labId, designId, upTo, methodKeys],
  )
}
