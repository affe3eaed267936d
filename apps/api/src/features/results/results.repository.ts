import type { RowsSql } from '#platform/sql-rows'

export type ResultRow = {
  id: string
  testId: string | null
  key: string
  value: string | null
  unit: string | null
  choice: string | null
  findings: string | null
  refusalCode: string | null
  refusalText: string | null
  methodKey: string | null
  computation: number | null
  build: string | null
  editionId: string | null
  designation: string | null
  at: Date
  body: string | null
  supersedesId: string | null
  superseded: boolean
  reason: string | null
}

/** A result and those that it took the place of, itself first. */
export async function findResultChain(sql: RowsSql, id: string): Promise<ResultRow[]> {
  return sql.rows<ResultRow>(
    `with recursive chain as (
       select r.*, 0 as depth from result r where r.lab_id = $1::uuid and r.id = $2::uuid
       union all
       select e.*, c.depth + 1 from result e join chain c on e.lab_id = c.lab_id and e.id = c.supersedes_id
     )
     select r.id, r.test_id as "testId", r.key, r.value_text as value, r.unit, r.choice, r.findings, r.refusal_code as "refusalCode", r.refusal_text as "refusalText", r.method_key as "methodKey", r.computation, r.build,
            r.edition_id as "editionId", e.designation, r.at, c.body, r.supersedes_id as "supersedesId", r.reason,
            exists (select from result n where n.lab_id = r.lab_id and n.supersedes_id = r.id) as superseded
       from chain r
       left join method_edition e on e.lab_id = r.lab_id and e.id = r.edition_id
       left join calculation c on c.lab_id = r.lab_id and c.result_id = r.id
      order by r.depth`,
    [sql.actor.labId, id],
  )
}
