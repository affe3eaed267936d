'use client'

import type { Deviation } from '@curebook/contract/deviations'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { Tabs, useTab } from '#components/tabs.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { DecideDialog } from './decide-dialog.tsx'
import { deviationQueries } from './deviations.queries.ts'

const shown = ['open', 'decided', 'all'] as const

/** What went otherwise than the method asks: what waits for a decision, and what was decided by whom and why. */
export function QualityScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const show = useTab(shown, 'show')
  const query = useQuery(deviationQueries.list(lab.id, show === 'open'))
  const [deciding, setDeciding] = useState<Deviation>()
  return (
    <div className="stack">
      <PageHeading screen={words('deviations.title')} under={words('deviations.under')} />
      <Tabs
        label={words('deviations.show')}
        param="show"
        tabs={shown.map((key) => ({ key, label: words(`deviations.show.${key}`) }))}
      />
      <Loaded query={query} what={words('deviations.these')} height="24rem">
        {({ items }) => (
          <DeviationTable
            rows={items.filter(({ decision }) => show !== 'decided' || decision !== null)}
            show={show}
            onDecide={lab.may('deviation:decide') ? setDeciding : undefined}
          />
        )}
      </Loaded>
      {deciding !== undefined && (
        <DecideDialog
          id={deciding.id}
          text={deciding.text}
          insideWord={deciding.insideWord}
          waiting={deciding.waiting}
          isOfTest={deciding.testId !== null}
          designs={new Set(deciding.specimens.map(({ designId }) => designId)).size}
          topics={deciding.testId === null ? [] : [`test:${deciding.testId}`]}
          onClose={() => setDeciding(undefined)}
        />
      )}
    </div>
  )
}

function DeviationTable({
  rows,
  show,
  onDecide,
}: {
  rows: readonly Deviation[]
  show: (typeof shown)[number]
  onDecide: ((deviation: Deviation) => void) | undefined
}) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<Deviation>[] = [
    {
      key: 'what',
      head: words('deviations.what'),
      cell: ({ text, insideWord, testId, label, itemCode, specimens }) => (
        <>
          {text}
          {insideWord !== null && (
            <>
              {' '}
              <span className="quiet">{words('deviations.inside', { word: insideWord })}</span>
            </>
          )}
          {testId !== null && (
            <>
              {' '}
              <Link href={`/l/${lab.short}/bench/tests/${testId}`} prefetch={false}>
                {words('deviations.openTest', { label: label ?? '', code: itemCode ?? '' })}
              </Link>
            </>
          )}
          {specimens.map((specimen) => (
            <span key={specimen.testId}>
              {' '}
              <Link href={`/l/${lab.short}/bench/tests/${specimen.testId}`} prefetch={false} className="nowrap">
                {words('deviations.openTest', { label: specimen.label, code: specimen.itemCode })}
              </Link>
            </span>
          ))}
        </>
      ),
    },
    {
      key: 'kind',
      head: words('deviations.kind'),
      cell: ({ kind }) => words(`deviations.kind.${kind}`),
      sort: ({ kind }) => kind,
    },
    {
      key: 'design',
      head: words('deviations.design'),
      cell: ({ designName, specimens }) =>
        designName ?? [...new Set(specimens.flatMap((specimen) => specimen.designName ?? []))].join(', '),
      sort: ({ designName }) => designName ?? '',
    },
    {
      key: 'opened',
      head: words('deviations.opened'),
      sort: ({ openedAt }) => openedAt,
      cell: ({ openedAt, openedByRule, by }) => (
        <>
          <TimeText at={openedAt} look="short" />, {openedByRule || by === null ? words('deviations.byRule') : by.name}
        </>
      ),
    },
    {
      key: 'decision',
      head: words('deviations.decision'),
      cell: (deviation) =>
        deviation.decision === null ? (
          <span className="row">
            {deviation.waiting === null ? (
              <StatusMark status="open" />
            ) : (
              <StatusMark status="waiting">{words('deviations.waitsForRelease')}</StatusMark>
            )}
            {onDecide !== undefined && (
              <Button
                size="small"
                onClick={() => onDecide(deviation)}
                aria-label={words('deviations.decideNamed', { text: deviation.text })}
              >
                {words('deviations.decide')}
              </Button>
            )}
          </span>
        ) : (
          <>
            <StatusMark status="decided">{words(`deviations.decision.${deviation.decision.kind}`)}</StatusMark>{' '}
            {deviation.decision.reason}{' '}
            <span className="quiet">{deviation.decision.by?.name ?? words('deviations.byRule')}, </span>
            <TimeText at={deviation.decision.at} look="short" />
            {deviation.notes.map(({ text, at }) => (
              <p key={at + text} className="quiet">
                {words('deviations.noted', { text })} <TimeText at={at} look="short" />
              </p>
            ))}
          </>
        ),
    },
  ]
  return (
    <DataTable
      caption={words('deviations.table')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      tall
      empty={<EmptyState title={words(`deviations.none.${show}`)}>{words('deviations.noneMore')}</EmptyState>}
    />
  )
}
