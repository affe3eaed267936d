'use client'

import type { DescendantSpecimens, Item, ItemPiece } from '@curebook/contract/custody'
import Link from 'next/link'
import { DataTable, type Column } from '#components/data-table.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

/** What was made of it: splits and bags with what is left of each, and specimens by mix. */
export function DescentPart({ item }: { item: Item }) {
  const words = useWords()
  return (
    <section className="stack" aria-labelledby="descent">
      <h2 id="descent">{words('custody.descent')}</h2>
      {item.pieces.length === 0 && item.batches === 0 && <p>{words('custody.noDescent')}</p>}
      {item.pieces.length > 0 && <Pieces item={item} />}
      {item.batches > 0 && <p>{words('custody.batches', { count: item.batches })}</p>}
      {item.specimens.length > 0 && <Specimens rows={item.specimens} />}
    </section>
  )
}

function Pieces({ item }: { item: Item }) {
  const words = useWords()
  const lab = useLaboratory()
  const codeOf = (id: string) => (id === item.id ? item.code : item.pieces.find((piece) => piece.id === id)?.code)
  const columns: readonly Column<ItemPiece>[] = [
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
    { key: 'kind', head: words('custody.kindHead'), cell: ({ kind }) => words(`custody.kind.${kind}`) },
    { key: 'of', head: words('custody.takenFrom'), cell: ({ parentId }) => codeOf(parentId) },
    { key: 'fraction', head: words('custody.fraction'), cell: ({ fraction }) => fraction },
    {
      key: 'mass',
      head: words('custody.massMade'),
      unit: 'g',
      number: true,
      cell: ({ massG }) => massG && <QuantityText digits={massG} />,
    },
    {
      key: 'left',
      head: words('custody.left'),
      unit: 'g',
      number: true,
      cell: ({ leftG }) => (leftG === '0' ? words('custody.usedUp') : leftG && <QuantityText digits={leftG} />),
    },
    {
      key: 'with',
      head: words('custody.with'),
      cell: ({ custodian, status }) => custodian ?? words(`custody.status.${status}`),
    },
  ]
  return (
    <DataTable
      caption={words('custody.pieces')}
      columns={columns}
      rows={item.pieces}
      idOf={({ id }) => id}
      sortParam="pieces"
      empty={null}
    />
  )
}

function Specimens({ rows }: { rows: readonly DescendantSpecimens[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<DescendantSpecimens>[] = [
    {
      key: 'design',
      head: words('custody.design'),
      cell: ({ designId, designName }) => (
        <Link href={`/l/${lab.short}/designs/${designId}`} prefetch={false}>
          {designName}
        </Link>
      ),
    },
    {
      key: 'mix',
      head: words('custody.mix'),
      cell: ({ emulsionPercent }) => emulsionPercent && words('custody.mixOf', { percent: emulsionPercent }),
    },
    { key: 'form', head: words('custody.form'), cell: ({ form }) => form && words(`custody.form.${form}`) },
    { key: 'count', head: words('custody.count'), number: true, cell: ({ count }) => count },
    { key: 'codes', head: words('custody.codes'), cell: ({ codes }) => codes.join(', ') },
  ]
  return (
    <DataTable
      caption={words('custody.specimens')}
      columns={columns}
      rows={rows}
      idOf={({ designId, mixId, form }) => `${designId} ${mixId} ${form}`}
      sortParam="specimens"
      empty={null}
    />
  )
}
