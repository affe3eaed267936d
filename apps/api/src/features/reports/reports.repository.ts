import type { Report, ReportCheck, ReportsQuery } from '@curebook/contract/reports'
import type { RowsSql } from '#platform/sql-rows'
import { shownNumber } from '@curebook/contract/report-number'

type ReportRow = Omit<Report, 'issuedAt' | 'recordChanged' | 'replacedBy' | 'state'> & {
  issuedAt: Date
  recordChanged: boolean
  state: Report['state']
  laterNumber: string | null
  laterAmendment: number | null
}

/** Issued reports, newest first. */
export async function findReports(
  sql: RowsSql,
  { id, designId, projectId }: ReportsQuery & { id?: string },
): Promise<Report[]> {
  const rows = await sql.rows<ReportRow>(
    `select r.id, r.number, r.amendment, r.project_id as "projectId", p.name as "projectName", g.id as "designId", g.name as "designName", v.number as revision,
            r.issued_at as "issuedAt", s.printed_name as "approvedBy", encode(c.dig, 'hex') as digest, encode(r.pdf_sha256, 'hex') as "fileDigest", later.number as "laterNumber", later.amendment as "laterAmendment",
            case when exists (select from report_event e where e.lab_id = r.lab_id and e.report_id = r.id and e.kind = 'withdrawn') then 'withdrawn'
                 when later.id is not null then 'superseded' else 'current' end as state,
            exists (select from test_event t join design_revision w on w.lab_id = t.lab_id and w.id = t.design_revision_id
                     where t.lab_id = r.lab_id and w.design_id = v.design_id and w.number <= v.number
                       and (exists (select from reading x where x.lab_id = t.lab_id and x.test_id = t.id and x.supersedes_id is not null and x.written_at > s.written_at)
                         or exists (select from reading_withdrawal x where x.lab_id = t.lab_id and x.test_id = t.id and x.written_at > s.written_at)
                         or exists (select from step_event x where x.lab_id = t.lab_id and x.test_id = t.id and (x.kind = 'void' or (x.kind in ('start', 'end') and x.supersedes_id is not null)) and x.written_at > s.written_at))) as "recordChanged"
       from report r
       join project p on p.lab_id = r.lab_id and p.id = r.project_id
       join design_revision v on v.lab_id = r.lab_id and v.id = r.design_revision_id
       join design g on g.lab_id = v.lab_id and g.id = v.design_id
       join signature s on s.lab_id = r.lab_id and s.id = r.signature_id
       join signed_content c on c.lab_id = r.lab_id and c.id = r.signed_content_id
       left join report later on later.lab_id = r.lab_id and later.replaces_id = r.id
      where r.lab_id = $1::uuid and ($2::uuid is null or r.id = $2::uuid) and ($3::uuid is null or g.id = $3::uuid)
        and ($4::uuid is null or r.project_id = $4::uuid)
      order by r.issued_at desc, r.amendment desc, r.id desc`,
    [sql.actor.labId, id ?? null, designId ?? null, projectId ?? null],
  )
  return rows.map(({ laterNumber, laterAmendment, ...row }) => ({
    ...row,
    issuedAt: row.issuedAt.toISOString(),
    replacedBy: laterNumber === null ? null : shownNumber(laterNumber, laterAmendment ?? 0),
  }))
}

export type CheckedReport = {
  number: string
  amendment: number
  laboratory: string
  issued_at: Date
  digest: Uint8Array
  state: ReportCheck['state']
  replaced_by_number: string | null
  replaced_by_amendment: number | null
}
export type ReportFile = { name: string; media_type: string; sha256: Uint8Array; body: Uint8Array }

/** The PDF of a report, for whoever may see the report: staff, or the client whose it is. */
export async function findPdf(sql: RowsSql, id: string): Promise<ReportFile | null> {
  return (await sql.rows<ReportFile>('select * from client_report_pdf($1::uuid)', [id]))[0] ?? null
}

/** The text that was signed, for whoever may see the report. */
export async function findContent(sql: RowsSql, id: string): Promise<string | null> {
  return (await sql.rows<{ body: string }>('select body from client_report_content($1::uuid)', [id]))[0]?.body ?? null
}
