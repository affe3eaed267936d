'use client'

import type { Edition } from '@curebook/contract/methods'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import Link from 'next/link'
import { DataTable, type Column } from '#components/data-table.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { boundsOf, type Bound } from './editions.ts'
import type { Method } from './methods.queries.ts'

/** Every bound of an edition with its source and mark, and the built-in value beside what the laboratory changed. */
export function BoundTable({ method, edition }: { method: Method; edition: Edition }) {
  const words = useWords()
  const lab = useLaboratory()
  const format = useLaboratoryFormat()
  const mayChange = lab.may('method:edit') && !edition.superseded
  const columns: readonly Column<Bound>[] = [
    { key: 'label', head: words('methods.bound'), sort: ({ label }) => label, cell: ({ label }) => label },
    { key: 'value', head: words('methods.value'), number: true, cell: ({ value }) => format.digits(value) },
    {
      key: 'unit',
      head: words('methods.unit'),
      cell: ({ unit }) => <span className="nowrap">{writtenUnit(unit)}</span>,
    },
    {
      key: 'source',
      head: words('methods.source'),
      sort: ({ source }) => source,
      cell: ({ source, clause }) => (clause === undefined ? source : words('methods.sourceClause', { source, clause })),
    },
    {
      key: 'certainty',
      head: words('methods.certainty'),
      sort: ({ certainty }) => certainty,
      cell: ({ certainty }) => words(`methods.certainty.${certainty.replaceAll(' ', '-')}`),
    },
    {
      key: 'builtIn',
      head: words('methods.builtIn'),
      cell: ({ builtIn }) =>
        builtIn === undefined ? (
          <span className="quiet">{words('methods.asBuiltIn')}</span>
        ) : (
          words('methods.builtInOf', {
            value: format.quantity(builtIn.value, builtIn.unit),
            source: builtIn.source,
            mark: words(`methods.certainty.${builtIn.certainty.replaceAll(' ', '-')}`),
          })
        ),
    },
    ...(mayChange
      ? [
          {
            key: 'change',
            head: <span className="sr-only">{words('methods.acts')}</span>,
            cell: ({ key, label }: Bound) => (
              <Link
                href={`/l/${lab.short}/methods/${method.key}/change?edition=${edition.id}&bound=${key}`}
                prefetch={false}
                className="no-print"
                aria-label={words('methods.changeOf', { label })}
              >
                {words('methods.change')}
              </Link>
            ),
          },
        ]
      : []),
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="bounds">
      <h2 id="bounds">{words('methods.bounds')}</h2>
      <p className="quiet prose">{words('methods.boundsAbout')}</p>
      <DataTable
        caption={words('methods.boundsOf', { designation: edition.designation, revision: edition.revision })}
        columns={columns}
        rows={boundsOf(edition, method.builtIn)}
        idOf={({ key }) => key}
        sortParam="bounds"
        empty={null}
      />
    </section>
  )
}
