'use client'

import type { ClientProjects } from '@curebook/contract/reports'
import { useQuery } from '@tanstack/react-query'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button, ButtonLink } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { clientViewQueries } from './client-view.queries.ts'
import { ProjectProgress } from './project-progress.tsx'

/** What a client sees: their projects, each with where it stands, what comes next, whom to ask, and its reports. */
export function OwnProjectsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(clientViewQueries.progress(lab.id, lab.me.clientId))
  return (
    <div className="stack">
      <PageHeading screen={words('clientView.title')} under={words('clientView.under', { laboratory: lab.name })} />
      <Loaded query={query} what={words('clientView.these')} height="24rem">
        {(answer) => (
          <>
            <Renewed answer={answer} busy={query.isFetching} onRenew={() => void query.refetch()} />
            {query.isRefetchError && <p role="alert">{query.error.message}</p>}
            {answer.projects.length === 0 ? (
              <EmptyState title={words('clientView.none')}>
                {words('clientView.noneMore', { laboratory: lab.name })}
              </EmptyState>
            ) : (
              answer.projects.map((project) => <ProjectProgress key={project.id} project={project} linked />)
            )}
          </>
        )}
      </Loaded>
    </div>
  )
}

/** One of a client's own projects under its own address, so that a link leads to it. */
export function OwnProjectScreen({ id }: { id: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(clientViewQueries.progress(lab.id, lab.me.clientId))
  const home = `/l/${lab.short}/projects`
  const name = query.data?.projects.find((project) => project.id === id)?.name
  return (
    <div className="stack">
      <Breadcrumb trail={[{ href: home, label: words('clientView.title') }]} />
      <PageHeading screen={words('clientView.title')} thing={name} />
      <Loaded query={query} what={words('clientView.thisOne')} height="20rem">
        {(answer) => {
          const project = answer.projects.find((one) => one.id === id)
          return project === undefined ? (
            <EmptyState
              title={words('clientView.notYours')}
              action={<ButtonLink href={home}>{words('clientView.toAll')}</ButtonLink>}
            />
          ) : (
            <>
              <Renewed answer={answer} busy={query.isFetching} onRenew={() => void query.refetch()} />
              <ProjectProgress project={project} />
            </>
          )
        }}
      </Loaded>
    </div>
  )
}

function Renewed({ answer, busy, onRenew }: { answer: ClientProjects; busy: boolean; onRenew: () => void }) {
  const words = useWords()
  return (
    <div className="row no-print">
      <span className="quiet" role="status">
        {busy ? words('clientView.renewing') : words('clientView.renewed')}{' '}
        {!busy && <TimeText at={answer.renewedAt} look="long" />}
      </span>
      <Button size="small" busy={busy} onClick={onRenew}>
        {words('clientView.renew')}
      </Button>
    </div>
  )
}
