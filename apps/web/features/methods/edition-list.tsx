'use client'

import type { Edition } from '@curebook/contract/methods'
import Link from 'next/link'
import { DataTable, type Column } from '#components/data-table.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { DayText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { changesIn } from './editions.ts'
import type { Method } from './methods.queries.ts'

/** The editions of a method, the newest first, and which one this page shows. */
export function EditionList({ method, shown }: { method: Method; shown: Edition }) {
  const words = useWords()
  const lab = useLaboratory()
  const nameOf = ({ designation, year, revision }: Edition) =>
    words('methods.editionName', { designation, year, revision })
  const columns: readonly Column<Edition>[] = [
    {
      key: 'edition',
      head: words('methods.edition'),
      cell: (edition) =>
        edition.id === shown.id ? (
          <span aria-current="true">{nameOf(edition)}</span>
        ) : (
          <Link href={`/l/${lab.short}/methods/${method.key}?edition=${edition.id}`} prefetch={false} scroll={false}>
            {nameOf(edition)}
          </Link>
        ),
    },
    { key: 'origin', head: words('methods.origin'), cell: ({ origin }) => words(`methods.origin.${origin}`) },
    {
      key: 'state',
      head: words('methods.state'),
      cell: (edition) => <EditionState edition={edition} />,
    },
    { key: 'from', head: words('methods.from'), cell: ({ effectiveFrom }) => <DayText day={effectiveFrom} /> },
    {
      key: 'changed',
      head: words('methods.changedBounds'),
      number: true,
      cell: (edition) => changesIn(edition, method.builtIn),
    },
    { key: 'reason', head: words('methods.reason'), cell: ({ reason }) => reason },
    ...(lab.may('method:edit')
      ? [
          {
            key: 'copy',
            head: <span className="sr-only">{words('methods.acts')}</span>,
            cell: (edition: Edition) =>
              edition.standing === 'replaced' ? null : (
                <Link
                  href={`/l/${lab.short}/methods/${method.key}/change?edition=${edition.id}`}
                  prefetch={false}
                  className="no-print"
                  aria-label={words('methods.makeFromOf', { name: nameOf(edition) })}
                >
                  {words(edition.inForce ? 'methods.change' : 'methods.makeFrom')}
                </Link>
              ),
          },
        ]
      : []),
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="editions">
      <h2 id="editions">{words('methods.editions')}</h2>
      <p className="quiet prose">
        {words('methods.shown', { name: nameOf(shown) })} {words('methods.keepNumbers')}{' '}
        {method.editions.some(({ standing }) => standing === 'beside') && words('methods.besideAbout')}
      </p>
      <DataTable
        caption={words('methods.editions')}
        captionHidden
        columns={columns}
        rows={method.editions}
        idOf={({ id }) => id}
        sortParam="editions"
        empty={null}
      />
    </section>
  )
}

const marks = { 'in-force': 'current', replaced: 'superseded', waiting: 'waiting', beside: 'any-time' } as const

function EditionState({ edition: { standing } }: { edition: Edition }) {
  const words = useWords()
  return <StatusMark status={marks[standing]}>{words(`methods.state.${standing}`)}</StatusMark>
}
