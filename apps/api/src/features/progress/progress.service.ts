import type { ClientProject, ClientProjects } from '@curebook/contract/reports'
import { rowsSqlOf, type RowsSql } from '#platform/sql-rows'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { shownNumber } from '@curebook/contract/report-number'
import { expectedDaysIn, withoutProject } from '#features/expected-days/expected-days.service'
import { ownSpecificationsIn } from '#features/project-specifications/project-specifications.service'
import { questionsIn } from '#features/questions/questions.service'
import { type LeastFar, projectStatus } from './project-status.ts'

export type ProgressService = ReturnType<typeof createProgressService>

type ProgressRow = {
  project_id: string
  name: string
  design_state: LeastFar
  tests_done: string
  tests_total: string
}
type OwnReportRow = {
  id: string
  projectId: string
  designName: string
  number: string
  amendment: number
  issuedAt: Date
  laterNumber: string | null
  laterAmendment: number | null
  withdrawn: boolean
}

/** A client's own projects in plain words: how far, what comes next, whom to ask, approved reports. No value of any test. */
export function createProgressService({ laboratory }: { laboratory: Laboratory }) {
  const read = (actor: Actor): Promise<ClientProjects> =>
    laboratory.inLaboratory(actor, async (tx) => {
      const sql = rowsSqlOf(tx)
      const [rows, reports, contact] = [
        await sql.rows<ProgressRow>('select * from client_progress()'),
        await ownReports(sql),
        await whomToAsk(sql),
      ]
      const questions = await questionsIn(sql, {})
      const expected = await expectedDaysIn(sql)
      const specifications = await ownSpecificationsIn(sql)
      return {
        renewedAt: tx.at.toISOString(),
        projects: rows.map((row) => {
          const project = toProject(row, reports, contact)
          const told = expected.filter(({ projectId }) => projectId === project.id)
          return {
            ...project,
            specification: specificationOf(project.id, specifications),
            // Once it is there, nobody waits for it.
            expected: project.reports.length > 0 && row.design_state === 'approved' ? [] : told.map(withoutProject),
            questions: questions.filter(({ projectId }) => projectId === project.id),
          }
        }),
      }
    })
  return { read }
}

/** The rows of `report` that the database shows this client, each with the design's name as it stands in what was signed. */
function ownReports(sql: RowsSql): Promise<OwnReportRow[]> {
  return sql.rows<OwnReportRow>(
    `select r.id, r.project_id as "projectId", signed.body::json #>> '{design,name}' as "designName", r.number, r.amendment, r.issued_at as "issuedAt", l.number as "laterNumber", l.amendment as "laterAmendment", false as withdrawn
       from report r
       cross join lateral client_report_content(r.id) signed
       left join report l on l.lab_id = r.lab_id and l.replaces_id = r.id
      where r.lab_id = $1::uuid order by r.issued_at desc, r.amendment desc`,
    [sql.actor.labId],
  )
}

function specificationOf(
  id: string,
  own: Awaited<ReturnType<typeof ownSpecificationsIn>>,
): ClientProject['specification'] {
  const found = own.find(({ projectId }) => projectId === id)
  return found ? { name: found.name, version: found.version } : null
}

async function whomToAsk(sql: RowsSql): Promise<string> {
  const [row] = await sql.rows<{ name: string; contact: string }>(
    'select name, contact from laboratory where id = $1::uuid',
    [sql.actor.labId],
  )
  return row ? [row.name, row.contact].filter((part) => part !== '').join(', ') : ''
}

function toProject(
  row: ProgressRow,
  reports: readonly OwnReportRow[],
  askWhom: string,
): Omit<ClientProject, 'expected' | 'questions' | 'specification'> {
  const own = reports.filter(({ projectId }) => projectId === row.project_id)
  return {
    id: row.project_id,
    name: row.name,
    ...projectStatus(
      row.design_state,
      own.length > 0,
      Number(row.tests_total) > 0 && row.tests_done === row.tests_total,
    ),
    testsDone: Number(row.tests_done),
    testsTotal: Number(row.tests_total),
    askWhom,
    reports: own.map(({ id, number, amendment, designName, issuedAt, laterNumber, laterAmendment }) => ({
      id,
      number: shownNumber(number, amendment),
      designName,
      issuedAt: issuedAt.toISOString(),
      state: laterNumber === null ? 'current' : 'superseded',
      replacedBy: laterNumber === null ? null : shownNumber(laterNumber, laterAmendment ?? 0),
    })),
  }
}
