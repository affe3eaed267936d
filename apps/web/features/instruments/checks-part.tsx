'use client'

import type { Instrument } from '@curebook/contract/instruments'
import type { InstrumentCheck } from '@curebook/contract/instrument-checks'
import { useQuery } from '@tanstack/react-query'
import dynamic from 'next/dynamic'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { CheckDialog } from './check-dialog.tsx'
import { useBoundsText } from './check-bounds.ts'
import { upkeepQueries } from './upkeep.queries.ts'

const CheckCharts = dynamic(() => import('./check-charts.tsx').then(({ CheckCharts: charts }) => charts), {
  ssr: false,
})

/** Checks between calibrations: what was read, by what it was judged, the latest first. */
export function ChecksPart({ instrument }: { instrument: Instrument }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(upkeepQueries.checks(lab.id, instrument.id))
  const [adding, setAdding] = useState<{ readonly supersedes: InstrumentCheck | undefined }>()
  const add = lab.may('instrument:check') && (
    <Button onClick={() => setAdding({ supersedes: undefined })}>{words('instruments.addCheck')}</Button>
  )
  return (
    <section className="stack stack-tight" aria-labelledby="checks">
      <div className="row row-between">
        <h2 id="checks">{words('instruments.checks')}</h2>
        {(query.data?.items.length ?? 0) > 0 && add}
      </div>
      <Loaded query={query} what={words('instruments.theseChecks')} height="8rem">
        {({ items, loadBounds, charts }) => (
          <>
            <CheckTable items={items} add={add} onCorrect={(supersedes) => setAdding({ supersedes })} />
            {charts.length > 0 && <CheckCharts charts={charts} />}
            {adding !== undefined && (
              <CheckDialog
                instrument={instrument}
                loadBounds={loadBounds}
                supersedes={adding.supersedes}
                last={items.find(({ superseded }) => !superseded)}
                onClose={() => setAdding(undefined)}
              />
            )}
          </>
        )}
      </Loaded>
    </section>
  )
}

function CheckTable({
  items,
  add,
  onCorrect,
}: {
  items: readonly InstrumentCheck[]
  add: React.ReactNode
  onCorrect: (check: InstrumentCheck) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const boundsText = useBoundsText()
  const columns: readonly Column<InstrumentCheck>[] = [
    {
      key: 'at',
      head: words('instruments.checkedAt'),
      sort: ({ checkedAt }) => checkedAt,
      cell: ({ checkedAt }) => <TimeText at={checkedAt} look="short" />,
    },
    { key: 'kind', head: words('instruments.checked'), cell: ({ kind }) => words(`instruments.check.${kind}`) },
    {
      key: 'read',
      head: words('instruments.wasRead'),
      cell: ({ typed, superseded }) => (superseded ? <s>{typed}</s> : typed),
    },
    { key: 'bounds', head: words('instruments.shouldBe'), cell: ({ bounds }) => boundsText(bounds) },
    {
      key: 'passed',
      head: words('instruments.outcome'),
      cell: ({ passed, superseded }) =>
        superseded ? (
          words('instruments.enteredWrong')
        ) : (
          <StatusMark status={passed ? 'pass' : 'fail'}>{words(`instruments.passed.${passed}`)}</StatusMark>
        ),
    },
    { key: 'by', head: words('instruments.enteredBy'), cell: ({ by }) => by.name },
    {
      key: 'note',
      head: words('instruments.remark'),
      cell: ({ reference, note, supersedes }) =>
        [reference, note, supersedes && words('instruments.correctedFor', { reason: supersedes.reason })]
          .filter(Boolean)
          .join('; '),
    },
    ...(lab.may('instrument:check')
      ? [
          {
            key: 'correct',
            head: words('instruments.correct'),
            cell: (check: InstrumentCheck) =>
              !check.superseded && (
                <Button
                  tone="quiet"
                  onClick={() => onCorrect(check)}
                  aria-label={words('instruments.correctCheck', { typed: check.typed })}
                >
                  {words('instruments.correct')}
                </Button>
              ),
          },
        ]
      : []),
  ]
  return (
    <DataTable
      caption={words('instruments.checks')}
      captionHidden
      columns={columns}
      rows={items}
      idOf={({ id }) => id}
      sortParam="checks"
      empty={
        <EmptyState title={words('instruments.noCheck')} action={add}>
          {words('instruments.noCheckMore')}
        </EmptyState>
      }
    />
  )
}
