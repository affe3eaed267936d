'use client'

import type { Project } from '@curebook/contract/projects'
import type { Report } from '@curebook/contract/reports'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { TimeText } from '#components/time-text.tsx'
import { ReportNumber, ReportState } from '#features/reports/report-cells.tsx'
import { reportFile, reportQueries } from '#features/reports/reports.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

/** What was issued in a project, of all its designs, the newest first. */
export function ProjectReports({ project: { id } }: { project: Pick<Project, 'id'> }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(reportQueries.ofProject(lab.id, id))
  const columns: readonly Column<Report>[] = [
    {
      key: 'number',
      head: words('reports.number'),
      cell: (report) => (
        <a href={reportFile(lab.id, report.id, 'pdf')} download>
          <ReportNumber report={report} />
          <span className="quiet"> {words('reports.download.pdf')}</span>
        </a>
      ),
    },
    {
      key: 'design',
      head: words('projects.design'),
      sort: ({ designName }) => designName,
      cell: ({ designId, designName }) => (
        <Link href={`/l/${lab.short}/designs/${designId}`} prefetch={false}>
          {designName}
        </Link>
      ),
    },
    { key: 'revision', head: words('reports.revision'), number: true, cell: ({ revision }) => revision },
    {
      key: 'issued',
      head: words('reports.issuedHead'),
      sort: ({ issuedAt }) => issuedAt,
      cell: ({ issuedAt }) => <TimeText at={issuedAt} look="short" />,
    },
    { key: 'state', head: words('reports.stateHead'), cell: (report) => <ReportState report={report} /> },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="reports">
      <h2 id="reports">{words('reports.title')}</h2>
      <Loaded query={query} what={words('reports.these')} height="8rem">
        {({ items }) => (
          <DataTable
            caption={words('reports.title')}
            captionHidden
            columns={columns}
            rows={items}
            idOf={(report) => report.id}
            sortParam="reports"
            empty={<EmptyState title={words('reports.none')}>{words('reports.noneYet')}</EmptyState>}
          />
        )}
      </Loaded>
    </section>
  )
}
