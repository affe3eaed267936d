'use client'

import type { Stock } from '@curebook/contract/custody'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Icon } from '#components/icon.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { DayText } from '#components/time-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { custodyQueries } from './custody.queries.ts'
import { OpenedBags } from './opened-bags.tsx'

/** What is left of each sample: what came, what batches weighed out of it, what was lost, and the bags not used yet. */
export function StockScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(custodyQueries.stock(lab.id))
  return (
    <div className="stack stack-wide">
      <div className="stack">
        <Breadcrumb trail={[{ href: `/l/${lab.short}/materials`, label: words('custody.materials') }]} />
        <PageHeading screen={words('custody.stock')} under={words('custody.stockUnder')} failed={query.isError} />
      </div>
      <Loaded query={query} what={words('custody.thisStock')} height="24rem">
        {({ items }) => <StockTable rows={items} />}
      </Loaded>
    </div>
  )
}

function StockTable({ rows }: { rows: readonly Stock[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const grams = (digits: string | null) => digits !== null && <QuantityText digits={digits} />
  const columns: readonly Column<Stock>[] = [
    {
      key: 'code',
      head: words('custody.code'),
      sort: ({ code }) => code,
      cell: ({ id, code }) => (
        <Link href={`/l/${lab.short}/materials/${id}`} prefetch={false} className="nowrap">
          {code}
        </Link>
      ),
    },
    {
      key: 'kind',
      head: words('custody.kindOfMaterial'),
      sort: ({ materialKind }) => materialKind,
      cell: ({ materialKind, name, lot }) => (
        <div style={{ minInlineSize: '8rem' }}>
          {[...new Set([words(`custody.material.${materialKind}`), name])].join(', ')}
          {lot !== '' && <div className="quiet small">{words('custody.lotOf', { lot })}</div>}
        </div>
      ),
    },
    {
      key: 'received',
      head: words('custody.receivedOn'),
      sort: ({ receivedOn }) => receivedOn,
      cell: ({ receivedOn }) => <DayText day={receivedOn} />,
    },
    {
      key: 'came',
      head: words('custody.came'),
      unit: 'g',
      number: true,
      cell: ({ receivedG, containers }) => grams(receivedG) || containers.join('; '),
    },
    {
      key: 'drawn',
      head: <NarrowHead>{words('custody.drawn')}</NarrowHead>,
      unit: 'g',
      number: true,
      cell: ({ drawnG, batches }) => (
        <>
          {grams(drawnG)}
          {batches > 0 && <div className="quiet small">{words('custody.inBatches', { count: batches })}</div>}
        </>
      ),
    },
    { key: 'lost', head: words('custody.lost'), unit: 'g', number: true, cell: ({ lostG }) => grams(lostG) },
    {
      key: 'gone',
      head: <NarrowHead>{words('custody.gone')}</NarrowHead>,
      unit: 'g',
      number: true,
      cell: ({ goneG }) => grams(goneG),
    },
    { key: 'left', head: words('custody.left'), unit: 'g', number: true, cell: (row) => <Left row={row} /> },
    { key: 'bags', head: words('custody.bagsUnused'), cell: ({ bags }) => <Bags bags={bags} /> },
    { key: 'opened', head: words('custody.bagsOpened'), cell: ({ opened }) => <OpenedBags bags={opened} /> },
  ]
  return (
    <DataTable
      caption={words('custody.stock')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      empty={<EmptyState title={words('custody.noStock')}>{words('custody.noStockMore')}</EmptyState>}
    />
  )
}

/** A head of several words over figures of few digits. */
function NarrowHead({ children }: { children: string }) {
  return <span style={{ display: 'inline-block', maxInlineSize: '5.5rem', whiteSpace: 'normal' }}>{children}</span>
}

function Left({ row }: { row: Stock }) {
  const words = useWords()
  if (row.disposed) return words('custody.status.disposed')
  if (row.leftG === null) return <span style={{ fontFamily: 'var(--text)' }}>{words('custody.notWeighed')}</span>
  if (!row.overdrawn) return <QuantityText digits={row.leftG} />
  return (
    <span className="nowrap">
      <Icon name="warning" /> {words('custody.overdrawn')}
    </span>
  )
}

function Bags({ bags }: { bags: Stock['bags'] }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  return bags.map(({ fraction, massG, made, unused }) => (
    <div key={`${fraction} ${massG}`} style={{ minInlineSize: '7rem' }}>
      {words('custody.bagsOf', { unused, made, mass: format.quantity(massG, 'g'), fraction: fraction ?? '' }).trim()}
    </div>
  ))
}
