import type { ExpectedDay } from '@curebook/contract/expected-days'
import type { RowsSql } from '#platform/sql-rows'

type Row = Omit<ExpectedDay, 'at'> & { at: Date; projectId: string }

/** What was told of when reports are expected, the newest first: of one project, or of all that whoever asks may see. */
export async function findExpectedDays(
  sql: RowsSql,
  projectId?: string,
): Promise<(ExpectedDay & { projectId: string })[]> {
  const rows = await sql.rows<Row>(
    `select e.id, e.project_id as "projectId", e.day::text as day, before.day::text as "from", e.reason, e.at
       from expected_day e
       left join expected_day before on before.lab_id = e.lab_id and before.id = e.supersedes_id
      where e.lab_id = $1::uuid and ($2::uuid is null or e.project_id = $2::uuid)
      order by exists (select from expected_day later where later.lab_id = e.lab_id and later.supersedes_id = e.id), e.at desc, e.written_at desc, e.id desc`,
    [sql.actor.labId, projectId ?? null],
  )
  return rows.map(({ at, ...row }) => ({ ...row, at: at.toISOString() }))
}
