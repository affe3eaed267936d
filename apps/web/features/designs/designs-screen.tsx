'use client'

import type { DesignSummary } from '@curebook/contract/designs'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { Button, ButtonLink } from '#components/button.tsx'
import { Chip } from '#components/chip.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { Pagination } from '#components/pagination.tsx'
import { Select } from '#components/select.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { NoticesPanel } from '#features/notices/notices-panel.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { designQueries } from './designs.queries.ts'
import { designStates, ofState } from './design-state.ts'
import { SentBack } from './sent-back.tsx'

/** Every design with its state and how far its tests are. The filter stands in the address. */
export function DesignsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const [cursor] = useSearchParam('cursor')
  const [state, setState] = useSearchParam('state')
  const query = useQuery(designQueries.list(lab.id, cursor))
  const newDesign = lab.may('design:create') && (
    <ButtonLink href={`/l/${lab.short}/designs/new`} tone="main">
      {words('designs.new')}
    </ButtonLink>
  )
  return (
    <div className="stack">
      <PageHeading screen={words('designs.title')} under={words('designs.under')} actions={newDesign} />
      <NoticesPanel />
      <div className="row no-print">
        {state !== '' && (
          <Chip
            name={words('designs.filterOf', { state: words(`designs.state.${state}`) })}
            onRemove={() => setState('')}
          >
            {words('designs.filterOf', { state: words(`designs.state.${state}`) })}
          </Chip>
        )}
        <Select
          name="state"
          label={words('designs.filter')}
          value={state}
          onChange={(event) => setState(event.target.value)}
          prompt={words('designs.filter.all')}
          options={designStates.map((value) => ({ value, label: words(`designs.state.${value}`) }))}
        />
      </div>
      <Loaded query={query} what={words('designs.these')} height="24rem">
        {({ items, next }) => (
          <>
            <SentBackDesigns rows={items} />
            <DesignTable
              rows={ofState(items, state)}
              empty={
                items.length === 0 ? (
                  <EmptyState title={words('designs.none')} action={newDesign}>
                    {words('designs.noneMore')}
                  </EmptyState>
                ) : (
                  <EmptyState
                    title={words('designs.noMatch')}
                    action={<Button onClick={() => setState('')}>{words('designs.clearFilter')}</Button>}
                  />
                )
              }
            />
            <Pagination next={next} />
          </>
        )}
      </Loaded>
    </div>
  )
}

/** What was sent back stands before the list, with its reason: an engineer sees it on the first screen. */
function SentBackDesigns({ rows }: { rows: readonly DesignSummary[] }) {
  const words = useWords()
  const lab = useLaboratory()
  return rows.flatMap(({ id, name, sentBack }) =>
    sentBack === null
      ? []
      : [
          <SentBack
            key={id}
            sentBack={sentBack}
            title={
              <Link href={`/l/${lab.short}/designs/${id}`} prefetch={false}>
                {words('designs.sentBackOf', { design: name, name: sentBack.by.name })}
              </Link>
            }
          />,
        ],
  )
}

function DesignTable({ rows, empty }: { rows: readonly DesignSummary[]; empty: React.ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<DesignSummary>[] = [
    {
      key: 'name',
      head: words('designs.name'),
      sort: ({ name }) => name,
      cell: ({ id, name }) => (
        <Link href={`/l/${lab.short}/designs/${id}`} prefetch={false}>
          {name}
        </Link>
      ),
    },
    { key: 'project', head: words('designs.project'), sort: (row) => row.projectName, cell: (row) => row.projectName },
    { key: 'client', head: words('designs.client'), sort: (row) => row.clientName, cell: (row) => row.clientName },
    {
      key: 'kind',
      head: words('designs.kind'),
      sort: ({ kind }) => kind,
      cell: ({ kind }) => words(`designs.kind.${kind}`),
    },
    {
      key: 'revision',
      head: words('designs.revision'),
      number: true,
      sort: (row) => row.revision,
      cell: (row) => row.revision,
    },
    {
      key: 'state',
      head: words('designs.stateHead'),
      sort: ({ state }) => designStates.indexOf(state),
      cell: ({ state }) => <StatusMark status={state}>{words(`designs.state.${state}`)}</StatusMark>,
    },
    {
      key: 'progress',
      head: words('designs.progress'),
      sort: ({ testsDone, testsTotal }) => (testsTotal === 0 ? 0 : testsDone / testsTotal),
      cell: (row) => words('designs.progressOf', { done: row.testsDone, total: row.testsTotal }),
    },
  ]
  return (
    <DataTable
      caption={words('designs.title')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      empty={empty}
      tall
    />
  )
}
