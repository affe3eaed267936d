import type { ClientProject, ClientProjects } from '@curebook/contract/reports'
import { rowsSqlOf, type RowsSql } from '#platform/sql-rows'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { shownNumber } from '@curebook/contract/report-number'

export type ProgressService = ReturnType<typeof createProgressService>

type ProgressRow = {
  project_id: string
  name: string
  design_state: string | null
  tests_done: string
  tests_total: string
}
type OwnReportRow = {
  id: string
  projectId: string
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
      return { renewedAt: tx.at.toISOString(), projects: rows.map((row) => toProject(row, reports, contact)) }
    })
  return { read }
}

/** The rows of `report` that the database shows this client. */
function ownReports(sql: RowsSql): Promise<OwnReportRow[]> {
  return sql.rows<OwnReportRow>(
    `select r.id, r.project_id as "projectId", r.number, r.amendment, r.issued_at as "issuedAt", l.number as "laterNumber", l.amendment as "laterAmendment", false as withdrawn
       from report r left join report l on l.lab_id = r.lab_id and l.replaces_id = r.id
      where r.lab_id = $1::uuid order by r.issued_at desc, r.amendment desc`,
    [sql.actor.labId],
  )
}

async function whomToAsk(sql: RowsSql): Promise<string> {
  const [row] = await sql.rows<{ name: string; contact: string }>(
    'select name, contact from laboratory where id = $1::uuid',
    [sql.actor.labId],
  )
  return row ? [row.name, row.contact].filter((part) => part !== '').join(', ') : ''
}

const words: Readonly<Record<string, { status: string; next: string }>> = {
  none: { status: 'Received', next: 'The laboratory plans the tests.' },
  draft: { status: 'Being planned', next: 'Specimens are made and tested.' },
  'in-work': { status: 'Tests under way', next: 'When all tests are done, an engineer reviews them.' },
  'sent-back': { status: 'Tests under way', next: 'Some work is looked at again before the review.' },
  'in-review': { status: 'In review', next: 'An engineer checks the results and approves the report.' },
  approved: { status: 'Approved', next: 'The report is issued.' },
}

function toProject(row: ProgressRow, reports: readonly OwnReportRow[], askWhom: string): ClientProject {
  const own = reports.filter(({ projectId }) => projectId === row.project_id)
  const said = words[row.design_state ?? 'none'] ?? words.none!
  const reported = row.design_state === 'approved' && own.length > 0
  return {
    id: row.project_id,
    name: row.name,
    status: reported ? 'Report issued' : said.status,
    next: reported ? 'Nothing more is planned. Ask the laboratory if you need another test.' : said.next,
    testsDone: Number(row.tests_done),
    testsTotal: Number(row.tests_total),
    askWhom,
    reports: own.map(({ id, number, amendment, issuedAt, laterNumber, laterAmendment }) => ({
      id,
      number: shownNumber(number, amendment),
      designName: row.name,
      issuedAt: issuedAt.toISOString(),
      state: laterNumber === null ? 'current' : 'superseded',
      replacedBy: laterNumber === null ? null : shownNumber(laterNumber, laterAmendment ?? 0),
    })),
  }
}
