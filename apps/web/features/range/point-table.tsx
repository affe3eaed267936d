'use client'

import type { Curve } from '@curebook/contract/range'
import Link from 'next/link'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { pointRows, type PointRow } from './curve-groups.ts'
import type { ShownResult } from './result-dialog.tsx'

/** Every result that counts, each with its calculation; x is what was poured, not what was aimed at. */
export function PointTable({
  curves,
  basis,
  onShow,
}: {
  curves: readonly Curve[]
  basis: string
  onShow: (shown: ShownResult) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<PointRow>[] = [
    {
      key: 'specimen',
      head: words('range.specimen'),
      sort: ({ point }) => point.label,
      cell: ({ point }) => (
        <Link href={`/l/${lab.short}/bench/tests/${point.testId}`} prefetch={false} className="nowrap">
          {words('range.specimenName', { label: point.label, code: point.code })}
        </Link>
      ),
    },
    { key: 'test', head: words('range.test'), sort: ({ curve }) => curve.label, cell: ({ curve }) => curve.label },
    {
      key: 'x',
      head: words('range.residualAsWeighed'),
      unit: basis,
      number: true,
      sort: ({ point }) => Number(point.x),
      cell: ({ point }) => <QuantityText digits={point.x} decimals={3} />,
    },
    {
      key: 'y',
      head: words('range.value'),
      sort: ({ point }) => Number(point.y),
      cell: ({ curve, point }) => <QuantityText digits={point.y} unit={curve.unit} decimals={1} />,
    },
    { key: 'flags', head: words('range.remarks'), cell: ({ point }) => point.flags.join(', ') },
    {
      key: 'calculation',
      head: words('range.calculation'),
      cell: ({ curve, point }) => (
        <Button
          size="small"
          onClick={() =>
            onShow({ resultId: point.resultId, label: `${curve.label}, ${point.label}`, code: point.code })
          }
          aria-label={words('range.calculationOf', { label: `${curve.label}, ${point.label}`, code: point.code })}
        >
          {words('common.showCalculation')}
        </Button>
      ),
    },
  ]
  const rows = pointRows(curves)
  return (
    <section className="stack stack-tight" aria-labelledby="points">
      <h2 id="points">{words('range.points', { count: rows.length })}</h2>
      <DataTable
        caption={words('range.points', { count: rows.length })}
        captionHidden
        columns={columns}
        rows={rows}
        idOf={({ key }) => key}
        sortParam="points"
        tall
        empty={null}
      />
    </section>
  )
}
