'use client'

import type { CastingPlan, CastingRow } from '@curebook/contract/casting'
import { useQuery } from '@tanstack/react-query'
import { Button, ButtonLink } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { BenchFrame } from '#features/bench/bench-frame.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { castingQueries } from './casting.queries.ts'

type Series = CastingPlan['series'][number]

/** In which order a design's specimens are cast, test by test, and which one is next. */
export function CastingScreen({ designId }: { designId: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(castingQueries.plan(lab.id, designId))
  return (
    <BenchFrame
      heading={
        <PageHeading
          screen={words('casting.title')}
          under={query.data?.designName}
          actions={
            <>
              <Button onClick={() => window.print()}>{words('casting.print')}</Button>
              <ButtonLink href={`/l/${lab.short}/bench`} prefetch={false}>
                {words('bench.back')}
              </ButtonLink>
            </>
          }
        />
      }
    >
      <p>{words('casting.about')}</p>
      <Loaded query={query} what={words('casting.this')} height="32rem">
        {({ series }) =>
          series.length === 0 ? (
            <EmptyState title={words('casting.none')} />
          ) : (
            <>
              {series.map((one) => (
                <SeriesOrder key={one.methodKey} series={one} />
              ))}
            </>
          )
        }
      </Loaded>
    </BenchFrame>
  )
}

function SeriesOrder({ series: { methodKey, methodName, rows } }: { series: Series }) {
  const words = useWords()
  const lab = useLaboratory()
  const next = rows.find(({ state }) => state === 'waiting')
  const place = ({ batchTestId }: CastingRow) => `/l/${lab.short}/bench/tests/${batchTestId}`
  const columns: readonly Column<CastingRow>[] = [
    { key: 'label', head: words('casting.specimen'), cell: ({ label }) => <span className="reading">{label}</span> },
    { key: 'ordinal', head: words('casting.number'), number: true, cell: ({ ordinal }) => ordinal },
    {
      key: 'block',
      head: words('casting.block'),
      cell: ({ block }) => (block === null ? words('casting.spares') : words('casting.blockNumber', { block })),
    },
    { key: 'code', head: words('casting.code'), cell: ({ code }) => <span className="reading">{code}</span> },
    {
      key: 'person',
      head: words('casting.person'),
      cell: ({ assignee }) => assignee?.name ?? <span className="quiet">{words('casting.nobody')}</span>,
    },
    {
      key: 'state',
      head: words('casting.state'),
      cell: (row) =>
        row === next ? (
          <StatusMark status="due">{words('casting.isNext')}</StatusMark>
        ) : (
          <StatusMark status={row.state === 'cast' ? 'done' : row.state === 'void' ? 'void' : 'waiting'}>
            {words(`casting.state.${row.state}`)}
          </StatusMark>
        ),
    },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby={`casting-${methodKey}`}>
      <h2 id={`casting-${methodKey}`}>{methodName}</h2>
      {next !== undefined && (
        <div className="row no-print">
          <ButtonLink tone="main" size="bench" href={place(next)} prefetch={false}>
            {words('casting.castNext', { label: next.label, ordinal: next.ordinal, of: rows.length })}
          </ButtonLink>
        </div>
      )}
      <DataTable
        caption={words('casting.caption', { method: methodName })}
        captionHidden
        columns={columns}
        rows={rows}
        idOf={({ testId }) => testId}
        sortParam={`order-${methodKey}`}
        empty={null}
      />
    </section>
  )
}
