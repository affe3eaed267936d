import type { RowsSql } from '#platform/sql-rows'

export type TestFacts = {
  readonly testId: string
  /** Of the edition that it is pinned to, as JSON; null without one. */
  readonly parameters: string | null
}

/** Parameters of the editions that these tests are pinned to: the repeatability that they are held by stands there. */
export function findTestFacts(sql: RowsSql, testIds: readonly string[]): Promise<TestFacts[]> {
  return sql.rows<TestFacts>(
    `select t.id as "testId", e.parameters
       from test_event t
       left join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
      where t.lab_id = $1::uuid and t.id = any($2::uuid[])`,
    [sql.actor.labId, testIds],
  )
}
