'use client'

import type { StandingSpecimen } from '@curebook/contract/loads'
import Link from 'next/link'
import { DataTable, type Column, type Selection } from '#components/data-table.tsx'
import { TimeText } from '#components/time-text.tsx'
import { WindowBar } from '#components/window-bar.tsx'
import { useLaboratoryNow } from '#features/bench/laboratory-clock.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

/** Specimens that stand together, the one whose window closes first on top. */
export function SpecimenTable({
  caption,
  rows,
  sortParam,
  selection,
}: {
  caption: string
  rows: readonly StandingSpecimen[]
  sortParam: string
  selection?: Selection
}) {
  const words = useWords()
  const lab = useLaboratory()
  const now = useLaboratoryNow(10_000)
  const columns: readonly Column<StandingSpecimen>[] = [
    {
      key: 'specimen',
      head: words('loads.specimen'),
      sort: ({ label }) => label,
      cell: ({ testId, label, code }) => (
        <Link href={`/l/${lab.short}/bench/tests/${testId}`} prefetch={false} className="nowrap">
          {words('loads.named', { label, code })}
        </Link>
      ),
    },
    {
      key: 'step',
      head: words('loads.step'),
      sort: ({ stepTitle }) => stepTitle,
      cell: ({ stepTitle, methodName }) => (
        <>
          {stepTitle} <span className="quiet">{methodName}</span>
        </>
      ),
    },
    {
      key: 'design',
      head: words('loads.design'),
      sort: ({ designName }) => designName ?? '',
      cell: ({ designName }) => designName ?? '',
    },
    {
      key: 'since',
      head: words('loads.since'),
      sort: ({ since }) => since,
      cell: ({ since }) => <TimeText at={since} look="short" />,
    },
    {
      key: 'window',
      head: words('loads.window'),
      sort: ({ closesAt }) => closesAt ?? '9999',
      cell: ({ opensAt, closesAt, label, code }) =>
        opensAt === null && closesAt === null ? (
          ''
        ) : (
          <WindowBar now={now} opensAt={opensAt} closesAt={closesAt} name={words('loads.windowOf', { label, code })} />
        ),
    },
  ]
  return (
    <DataTable
      caption={caption}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ testId }) => testId}
      sortParam={sortParam}
      selection={selection}
      empty={null}
    />
  )
}
