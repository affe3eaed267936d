import type { RowsSql } from '#platform/sql-rows'

/** One specimen with its result of record in one unit and the emulsion content of its batch as weighed. */
export type PointRow = {
  testId: string
  methodKey: string
  code: string
  label: string
  mixId: string
  emulsionPercent: string
  resultId: string
  y: string
  unit: string
  contentId: string
  /** % of dry aggregate, as weighed. */
  content: string
  corrected: number
  deviations: number
  replaces: string | null
  /** Finished, not void, a spare only in another's place. */
  counts: boolean
  voidReason: string | null
  voidBy: string | null
  isVoid: boolean
}

/**
 * Specimens with a result, of this revision and all before it: those that count, and those that do not, being void or a
 * spare in nobody's place. One row for each unit in which the result of record stands.
 */
export function findPoints(
  sql: RowsSql,
  {
    designId,
    upTo,
    methodKeys,
    resultKeys,
  }: { designId: string; upTo: number; methodKeys: readonly string[]; resultKeys: readonly string[] },
): Promise<PointRow[]> {
  return sql.rows<PointRow>(
    `select t.id as "testId", t.method_key as "methodKey", i.code, t.label, t.mix_id as "mixId", m.emulsion_percent_text as "emulsionPercent",
            y.id as "resultId", y.value_text as y, y.unit, x.id as "contentId", x.value_text as content,
            (select count(*)::int from reading c where c.lab_id = t.lab_id and c.test_id in (t.id, b.id) and c.supersedes_id is not null) as corrected,
            (select count(*)::int from (
              select d.id from deviation d where d.lab_id = t.lab_id and d.test_id in (t.id, b.id)
              union select l.deviation_id from deviation_test l where l.lab_id = t.lab_id and l.test_id in (t.id, b.id)) d) as deviations,
            o.label as replaces, n.state = 'done' and (t.purpose <> 'spare' or k.id is not null) as counts,
            n.state in ('void', 'replaced') as "isVoid", v.note as "voidReason", p.name as "voidBy"
       from design_revision r
       join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id and t.method_key = any($4::text[])
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id and n.state in ('done', 'void', 'replaced')
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       join mix m on m.lab_id = t.lab_id and m.id = t.mix_id
       join item_parent l on l.lab_id = i.lab_id and l.child_id = i.id
       join test_event b on b.lab_id = l.lab_id and b.item_id = l.parent_id and b.method_key = 'batch'
       join result y on y.lab_id = t.lab_id and y.test_id = t.id and y.key = any($5::text[]) and y.value is not null
        and not exists (select from result c where c.lab_id = y.lab_id and c.supersedes_id = y.id)
       join result x on x.lab_id = b.lab_id and x.test_id = b.id and x.key = 'emulsion-content' and x.value is not null
        and not exists (select from result c where c.lab_id = x.lab_id and c.supersedes_id = x.id)
       left join test_replacement k on k.lab_id = t.lab_id and k.spare_test_id = t.id
       left join test_event o on o.lab_id = k.lab_id and o.id = k.void_test_id
       left join step_event v on v.lab_id = t.lab_id and v.test_id = t.id and v.kind = 'void' and v.supersedes_id is null
       left join membership p on p.lab_id = v.lab_id and p.id = v.by_id
      where r.lab_id = $1::uuid and r.design_id = $2::uuid and r.number <= $3::int
      order by m.emulsion_percent, t.label, i.code, y.key, y.unit`,
    [sql.actor.labId, designId, upTo, methodKeys, resultKeys],
  )
}
