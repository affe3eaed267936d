'use client'

import type { Specification } from '@curebook/contract/specifications'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { ButtonLink } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { Tabs, useTab } from '#components/tabs.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { BuiltInPart } from './built-in-part.tsx'
import { specificationQueries } from './specifications.queries.ts'
import { StandingMark } from './standing-mark.tsx'

const tabs = ['adopted', 'built-in'] as const

/** What results must meet: specifications adopted for projects, and the guideline values that they are copied from. */
export function SpecificationsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const tab = useTab(tabs)
  return (
    <div className="stack">
      <Breadcrumb trail={[{ href: `/l/${lab.short}/projects`, label: words('specifications.projects') }]} />
      <PageHeading
        screen={words('specifications.title')}
        under={words('specifications.under')}
        actions={<AdoptLink />}
      />
      <Tabs
        label={words('specifications.parts')}
        tabs={tabs.map((key) => ({ key, label: words(`specifications.tab.${key}`) }))}
      />
      {tab === 'adopted' ? <AdoptedPart /> : <BuiltInPart />}
    </div>
  )
}

/** Adopting copies built-in values; what copies none is written anew. */
function AdoptLink() {
  const words = useWords()
  const lab = useLaboratory()
  if (!lab.may('specification:adopt')) return null
  return (
    <>
      <ButtonLink href={`/l/${lab.short}/specifications/new`} tone="main">
        {words('specifications.new')}
      </ButtonLink>
      <ButtonLink href={`/l/${lab.short}/specifications/own`}>{words('specifications.write')}</ButtonLink>
    </>
  )
}

/** One row a line: its newest version, the others stand on its page. */
function newestOf(items: readonly Specification[]): readonly Specification[] {
  return items.filter(
    ({ lineId, version }) => !items.some((other) => other.lineId === lineId && other.version > version),
  )
}

function AdoptedPart() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(specificationQueries.list(lab.id))
  const columns: readonly Column<Specification>[] = [
    {
      key: 'name',
      head: words('specifications.name'),
      sort: ({ name }) => name,
      cell: ({ id, name }) => (
        <Link href={`/l/${lab.short}/specifications/${id}`} prefetch={false}>
          {name}
        </Link>
      ),
    },
    { key: 'version', head: words('specifications.version'), number: true, cell: ({ version }) => version },
    {
      key: 'standing',
      head: words('specifications.standing'),
      sort: ({ standing }) => standing,
      cell: ({ standing }) => <StandingMark standing={standing} />,
    },
    {
      key: 'source',
      head: words('specifications.source'),
      sort: ({ source }) => source,
      cell: ({ source }) => source,
    },
    {
      key: 'type',
      head: words('specifications.aggregateType'),
      sort: ({ aggregateType }) => aggregateType,
      cell: ({ aggregateType }) => aggregateType,
    },
    {
      key: 'traffic',
      head: words('specifications.traffic'),
      cell: ({ traffic }) => words(`specifications.traffic.${traffic}`),
    },
    {
      key: 'changes',
      head: words('specifications.changes'),
      number: true,
      cell: ({ limits, residualBand }) =>
        limits.filter(({ changedFrom }) => changedFrom !== null).length + (residualBand.changedFrom === null ? 0 : 1),
    },
    {
      key: 'at',
      head: words('specifications.adoptedOn'),
      sort: ({ createdAt }) => createdAt,
      cell: ({ createdAt }) => <TimeText at={createdAt} look="day" />,
    },
  ]
  return (
    <Loaded query={query} what={words('specifications.these')} height="16rem">
      {({ items }) => (
        <DataTable
          caption={words('specifications.tab.adopted')}
          captionHidden
          columns={columns}
          rows={newestOf(items)}
          idOf={({ id }) => id}
          empty={
            <EmptyState title={words('specifications.none')} action={<AdoptLink />}>
              {words('specifications.noneMore')}
            </EmptyState>
          }
        />
      )}
    </Loaded>
  )
}
