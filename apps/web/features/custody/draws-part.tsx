'use client'

import type { Draw, Item } from '@curebook/contract/custody'
import Link from 'next/link'
import { DataTable, type Column } from '#components/data-table.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

/** What batches weighed out of it, and out of what was set apart of it: by batch, with the bag where one was named. */
export function DrawsPart({ item }: { item: Item }) {
  const words = useWords()
  const lab = useLaboratory()
  if (item.draws.length === 0) return null
  const columns: readonly Column<Draw>[] = [
    {
      key: 'batch',
      head: words('custody.kind.batch'),
      cell: ({ testId, batchCode }) => (
        <Link href={`/l/${lab.short}/bench/tests/${testId}`} prefetch={false} className="nowrap">
          {batchCode}
        </Link>
      ),
    },
    {
      key: 'from',
      head: words('custody.weighedFrom'),
      cell: ({ from }) =>
        from === null ? (
          words('custody.noBagNamed')
        ) : (
          <Link href={`/l/${lab.short}/materials/${from.id}`} prefetch={false} className="nowrap">
            {from.code}
          </Link>
        ),
    },
    {
      key: 'mass',
      head: words('custody.weighed'),
      unit: 'g',
      number: true,
      cell: ({ massG }) => <QuantityText digits={massG} />,
    },
    { key: 'by', head: words('custody.by'), cell: ({ by }) => <span className="nowrap">{by}</span> },
    { key: 'at', head: words('custody.when'), cell: ({ at }) => <TimeText at={at} /> },
  ]
  return (
    <section className="stack" aria-labelledby="draws">
      <h2 id="draws">{words('custody.draws')}</h2>
      <DataTable
        caption={words('custody.drawsOf', { code: item.code })}
        captionHidden
        columns={columns}
        rows={item.draws}
        idOf={({ testId, from }) => `${testId} ${from?.id}`}
        sortParam="draws"
        empty={null}
      />
    </section>
  )
}
