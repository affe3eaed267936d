import type { Question, QuestionsQuery } from '@curebook/contract/questions'
import { shownNumber } from '@curebook/contract/report-number'
import type { RowsSql } from '#platform/sql-rows'

type QuestionRow = Omit<Question, 'askedAt' | 'reportNumber'> & {
  askedAt: Date
  number: string | null
  amendment: number | null
}

/** Questions that whoever asks may see: staff all of the laboratory, a client their own. The newest first. */
export async function findQuestions(
  sql: RowsSql,
  { id, projectId, open }: QuestionsQuery & { id?: string },
): Promise<Question[]> {
  const rows = await sql.rows<QuestionRow>(
    `select q.id, q.project_id as "projectId", p.name as "projectName", q.report_id as "reportId", r.number, r.amendment,
            q.text, q.printed_name as "askedBy", q.at as "askedAt",
            coalesce((select json_agg(json_build_object('id', a.id, 'text', a.text, 'answeredBy', a.printed_name, 'answeredAt', a.at) order by a.at, a.id)
                        from question_answer a where a.lab_id = q.lab_id and a.question_id = q.id), '[]'::json) as answers
       from question q
       join project p on p.lab_id = q.lab_id and p.id = q.project_id
       left join report r on r.lab_id = q.lab_id and r.id = q.report_id
      where q.lab_id = $1::uuid and ($2::uuid is null or q.id = $2::uuid) and ($3::uuid is null or q.project_id = $3::uuid)
        and ($4::text is null or not exists (select from question_answer a where a.lab_id = q.lab_id and a.question_id = q.id))
      order by q.at desc, q.id desc`,
    [sql.actor.labId, id ?? null, projectId ?? null, open ?? null],
  )
  return rows.map(({ number, amendment, askedAt, answers, ...row }) => ({
    ...row,
    reportNumber: number === null ? null : shownNumber(number, amendment ?? 0),
    askedAt: askedAt.toISOString(),
    answers: answers.map((answer) => ({ ...answer, answeredAt: new Date(answer.answeredAt).toISOString() })),
  }))
}
