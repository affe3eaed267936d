'use client'

import type { Design } from '@curebook/contract/designs'
import type { Report } from '@curebook/contract/reports'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { IssueReportDialog } from './issue-report-dialog.tsx'
import { ReportNumber, ReportState } from './report-cells.tsx'
import { currentOf, reportsOf } from './reports-of.ts'
import { reportFile, reportQueries } from './reports.queries.ts'
import styles from './reports.module.css'

/** The reports of a design: what is current, what was superseded, and the files of each. */
export function ReportsTab({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(reportQueries.ofDesign(lab.id, design.id))
  const [issuing, setIssuing] = useState(false)
  const approved = design.state === 'approved'
  return (
    <Loaded query={query} what={words('reports.these')} height="16rem">
      {({ items }) => {
        const rows = reportsOf(items, design.id)
        const current = currentOf(rows, design.revision)
        return (
          <section className="stack" aria-labelledby="reports">
            <h2 id="reports">{words('reports.title')}</h2>
            {current?.recordChanged && (
              <p className="caution" role="note">
                {words('reports.recordChanged', { number: current.number })}
              </p>
            )}
            {approved && lab.may('report:issue') && (
              <div className="row no-print">
                <Button tone={current === undefined ? 'main' : 'plain'} onClick={() => setIssuing(true)}>
                  {words(current === undefined ? 'reports.issue' : 'reports.issueAgain')}
                </Button>
              </div>
            )}
            <ReportTable
              rows={rows}
              empty={
                <EmptyState title={words('reports.none')}>
                  {words(approved ? 'reports.noneApproved' : 'reports.noneYet')}
                </EmptyState>
              }
            />
            {issuing && (
              <IssueReportDialog design={design} replacing={current !== undefined} onClose={() => setIssuing(false)} />
            )}
          </section>
        )
      }}
    </Loaded>
  )
}

function ReportTable({ rows, empty }: { rows: readonly Report[]; empty: React.ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<Report>[] = [
    {
      key: 'number',
      head: words('reports.number'),
      cell: (report) => <ReportNumber report={report} />,
    },
    {
      key: 'state',
      head: words('reports.stateHead'),
      cell: (report) => <ReportState report={report} />,
    },
    {
      key: 'files',
      head: words('reports.files'),
      cell: ({ id, number, amendment }) => (
        <span className="row">
          {(['pdf', 'csv', 'content'] as const).map((kind) => (
            <a key={kind} href={reportFile(lab.id, id, kind)} download>
              {words(`reports.download.${kind}`)}
              <span className="sr-only">
                {' '}
                {words(`reports.downloadOf.${kind}`, {
                  number: amendment > 0 ? `${number}, ${words('reports.amendment', { amendment })}` : number,
                })}
              </span>
            </a>
          ))}
        </span>
      ),
    },
    { key: 'revision', head: words('reports.revision'), number: true, cell: ({ revision }) => revision },
    {
      key: 'issued',
      head: words('reports.issuedHead'),
      sort: ({ issuedAt }) => issuedAt,
      cell: ({ issuedAt }) => <TimeText at={issuedAt} look="short" />,
    },
    { key: 'approvedBy', head: words('reports.approvedBy'), cell: ({ approvedBy }) => approvedBy },
    {
      key: 'digest',
      head: words('reports.digest'),
      cell: ({ digest }) => <span className={styles.digest}>{digest}</span>,
    },
  ]
  return (
    <DataTable
      caption={words('reports.title')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      sortParam="reports"
      empty={empty}
    />
  )
}
