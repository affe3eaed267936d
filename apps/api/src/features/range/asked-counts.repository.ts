import type { RowsSql } from '#platform/sql-rows'

/** A test of a design with what decides whether it counts. */
export type CountedTestRow = {
  readonly methodKey: string
  readonly emulsionPercent: string | null
  readonly state: string
  /** Of the series, or a spare in another's place. */
  readonly takesPart: boolean
  /** A number or a class stands. */
  readonly hasResult: boolean
  /** Of the edition that it is pinned to, as JSON. */
  readonly parameters: string
}

/** The tests of a design's specimens, of this revision and all before it. */
export function findCountedTests(sql: RowsSql, designId: string, upTo: number): Promise<CountedTestRow[]> {
  return sql.rows<CountedTestRow>(
    `select t.method_key as "methodKey", m.emulsion_percent_text as "emulsionPercent", n.state, e.parameters,
            t.purpose <> 'spare' or k.id is not null as "takesPart",
            exists (select from result y
                     where y.lab_id = t.lab_id and y.test_id = t.id and y.made_by = 'computed' and (y.value is not null or y.choice is not null)
                       and not exists (select from result c where c.lab_id = y.lab_id and c.supersedes_id = y.id)) as "hasResult"
       from design_revision r
       join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id and t.method_key <> 'batch'
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
       join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
       left join mix m on m.lab_id = t.lab_id and m.id = t.mix_id
       left join test_replacement k on k.lab_id = t.lab_id and k.spare_test_id = t.id
      where r.lab_id = $1::uuid and r.design_id = $2::uuid and r.number <= $3::int
      order by t.method_key, m.emulsion_percent, t.replicate, t.id`,
    [sql.actor.labId, designId, upTo],
  )
}
