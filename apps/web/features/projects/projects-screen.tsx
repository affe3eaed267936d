'use client'

import type { Project } from '@curebook/contract/projects'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { ButtonLink } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { Pagination } from '#components/pagination.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { OpenQuestions } from '#features/questions/project-questions.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { projectQueries } from './projects.queries.ts'

/** The projects of the laboratory, the newest first, with the state of their designs. */
export function ProjectsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const [cursor] = useSearchParam('cursor')
  const query = useQuery(projectQueries.list(lab.id, cursor))
  const make = lab.may('project:create') && (
    <ButtonLink href={`/l/${lab.short}/projects/new`} tone="main">
      {words('projects.new')}
    </ButtonLink>
  )
  return (
    <div className="stack">
      <PageHeading
        screen={words('projects.title')}
        under={words('projects.under')}
        actions={
          <>
            <ButtonLink href={`/l/${lab.short}/projects/clients`}>{words('projects.clients')}</ButtonLink>
            <ButtonLink href={`/l/${lab.short}/specifications`}>{words('projects.specifications')}</ButtonLink>
            {make}
          </>
        }
      />
      {lab.may('question:read') && <OpenQuestions />}
      <Loaded query={query} what={words('projects.these')} height="20rem">
        {({ items, next }) => (
          <>
            <ProjectTable rows={items} make={make} />
            <Pagination next={next} />
          </>
        )}
      </Loaded>
    </div>
  )
}

function ProjectTable({ rows, make }: { rows: readonly Project[]; make: React.ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<Project>[] = [
    {
      key: 'name',
      head: words('projects.name'),
      sort: ({ name }) => name,
      cell: ({ id, name }) => (
        <Link href={`/l/${lab.short}/projects/${id}`} prefetch={false}>
          {name}
        </Link>
      ),
    },
    {
      key: 'code',
      head: words('projects.code'),
      sort: ({ code }) => code,
      cell: ({ code }) => <span className="nowrap">{code}</span>,
    },
    {
      key: 'client',
      head: words('projects.client'),
      sort: ({ clientName }) => clientName,
      cell: ({ clientName }) => clientName,
    },
    {
      key: 'kind',
      head: words('projects.kind'),
      sort: ({ kind }) => kind,
      cell: ({ kind }) => words(`projects.kind.${kind}`),
    },
    { key: 'designs', head: words('projects.designs'), cell: (project) => <DesignStates project={project} /> },
    {
      key: 'begun',
      head: words('projects.begun'),
      sort: ({ createdAt }) => createdAt,
      cell: ({ createdAt }) => <TimeText at={createdAt} look="day" />,
    },
  ]
  return (
    <DataTable
      caption={words('projects.title')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      empty={
        <EmptyState title={words('projects.none')} action={make}>
          {words('projects.noneMore')}
        </EmptyState>
      }
      tall
    />
  )
}

function DesignStates({ project: { designs } }: { project: Project }) {
  const words = useWords()
  const lab = useLaboratory()
  if (designs.length === 0) return <span className="quiet">{words('projects.noDesigns')}</span>
  return (
    <ul className="plain-list">
      {designs.map(({ id, name, revision, state }) => (
        <li key={id} className="row" style={{ gap: 'var(--gap-2)' }}>
          <Link href={`/l/${lab.short}/designs/${id}`} prefetch={false}>
            {words('projects.designRevision', { name, revision })}
          </Link>
          <StatusMark status={state} />
        </li>
      ))}
    </ul>
  )
}
