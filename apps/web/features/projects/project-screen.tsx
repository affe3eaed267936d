'use client'

import type { Project } from '@curebook/contract/projects'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button, ButtonLink } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { ProjectExpected } from '#features/expected-days/project-expected.tsx'
import { ProjectSpecification } from '#features/project-specifications/project-specification.tsx'
import { ProjectQuestions } from '#features/questions/project-questions.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { EditProjectDialog } from './edit-project-dialog.tsx'
import { ProjectReports } from './project-reports.tsx'
import { projectQueries } from './projects.queries.ts'

/** One project: for whom, where its reports go, its designs and the reports issued of them. */
export function ProjectScreen({ id }: { id: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(projectQueries.one(lab.id, id))
  const [editing, setEditing] = useState(false)
  const project = query.data
  return (
    <div className="stack stack-wide">
      <div className="stack">
        <Breadcrumb trail={[{ href: `/l/${lab.short}/projects`, label: words('projects.title') }]} />
        <PageHeading
          screen={words('projects.title')}
          thing={project?.name}
          under={project && words('projects.underOne', { code: project.code, client: project.clientName })}
          failed={query.isError}
          actions={
            project !== undefined &&
            lab.may('project:update') && <Button onClick={() => setEditing(true)}>{words('projects.edit')}</Button>
          }
        />
      </div>
      <Loaded query={query} what={words('projects.thisOne')} height="20rem">
        {(loaded) => (
          <>
            <Facts project={loaded} />
            <ProjectSpecification projectId={loaded.id} />
            <ProjectExpected projectId={loaded.id} />
            <Designs project={loaded} />
            {lab.may('report:read') && <ProjectReports project={loaded} />}
            {lab.may('question:read') && <ProjectQuestions projectId={loaded.id} />}
            {editing && <EditProjectDialog project={loaded} onClose={() => setEditing(false)} />}
          </>
        )}
      </Loaded>
    </div>
  )
}

function Facts({ project }: { project: Project }) {
  const words = useWords()
  const facts = [
    [words('projects.client'), project.clientName],
    [words('projects.kind'), words(`projects.kind.${project.kind}`)],
    [words('projects.reportTo'), project.reportTo || words('projects.nothing')],
    [words('projects.copiesTo'), project.copiesTo || words('projects.nothing')],
  ] as const
  return (
    <dl className="facts panel">
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd style={{ whiteSpace: 'pre-line' }}>{value}</dd>
        </div>
      ))}
      <div>
        <dt>{words('projects.begun')}</dt>
        <dd>
          <TimeText at={project.createdAt} look="day" />
        </dd>
      </div>
    </dl>
  )
}

function Designs({ project }: { project: Project }) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<Project['designs'][number]>[] = [
    {
      key: 'name',
      head: words('projects.design'),
      sort: ({ name }) => name,
      cell: ({ id, name }) => (
        <Link href={`/l/${lab.short}/designs/${id}`} prefetch={false}>
          {name}
        </Link>
      ),
    },
    { key: 'revision', head: words('projects.revision'), number: true, cell: ({ revision }) => revision },
    { key: 'state', head: words('projects.state'), cell: ({ state }) => <StatusMark status={state} /> },
  ]
  const make = lab.may('design:create') && (
    <ButtonLink href={`/l/${lab.short}/designs/new?project=${project.id}`} tone="main">
      {words('projects.newDesign')}
    </ButtonLink>
  )
  return (
    <section className="stack stack-tight" aria-labelledby="designs">
      <div className="row row-between">
        <h2 id="designs">{words('projects.designs')}</h2>
        {project.designs.length > 0 && make}
      </div>
      <DataTable
        caption={words('projects.designs')}
        captionHidden
        columns={columns}
        rows={project.designs}
        idOf={({ id }) => id}
        sortParam="designs"
        empty={
          <EmptyState title={words('projects.noDesigns')} action={make}>
            {words('projects.noDesignsMore')}
          </EmptyState>
        }
      />
    </section>
  )
}
