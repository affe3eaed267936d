import type { ResultBrief } from '@curebook/contract/bench'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { RowsSql } from '#platform/sql-rows'
import { choiceLabel, resultLabels } from '@curebook/trade/methods/result-labels'

type BriefRow = {
  testId: string
  methodKey: string
  id: string
  key: string
  value: string | null
  unit: string | null
  choice: string | null
  findings: string | null
  refusalCode: string | null
  refusalText: string | null
}

/** Computed results of tests that stand, in words. */
export async function resultBriefs(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  testIds: readonly string[],
): Promise<(ResultBrief & { testId: string })[]> {
  const rows = await sql.rows<BriefRow>(
    `select r.test_id as "testId", r.method_key as "methodKey", r.id, r.key, r.value_text as value, r.unit, r.choice, r.findings, r.refusal_code as "refusalCode", r.refusal_text as "refusalText"
       from result r
      where r.lab_id = $1::uuid and r.test_id = any($2::uuid[]) and r.made_by = 'computed'
        and not exists (select from result c where c.lab_id = r.lab_id and c.supersedes_id = r.id)
      order by r.key, r.unit`,
    [sql.actor.labId, testIds],
  )
  return rows.map(({ methodKey, refusalCode, refusalText, ...row }) => ({
    ...row,
    ...resultLabels(methods, methodKey, row.key, row.unit),
    choice: choiceLabel(methods, methodKey, row.key, row.choice),
    refusal: refusalCode ? { code: refusalCode, text: refusalText! } : null,
  }))
}
