'use client'

import { shownDecimals } from '@curebook/contract/shown-decimals'
import type { Curve } from '@curebook/contract/range'
import Link from 'next/link'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { pointRows, type PointRow } from './curve-groups.ts'
import { useExcludedWords } from './excluded-words.ts'
import type { ShownResult } from './result-dialog.tsx'

/** Every result, each with its calculation, and with reason and person where it does not count; x is what was poured, not what was aimed at. */
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
  const excluded = useExcludedWords()
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
      cell: ({ curve, point }) => (
        <QuantityText digits={point.y} unit={curve.unit} decimals={shownDecimals(curve.unit)} />
      ),
    },
    {
      key: 'flags',
      head: words('range.remarks'),
      cell: ({ point }) =>
        'flags' in point ? (
          point.flags.join(', ')
        ) : (
          <>
            {point.kind === 'void' && <StatusMark status="void" />} {excluded(point)}
          </>
        ),
    },
    {
      key: 'calculation',
      head: words('range.calculation'),
      cell: ({ curve, point }) => (
        <Button
          size="small"
          onClick={() =>
            onShow({
              resultId: point.resultId,
              testId: point.testId,
              label: `${curve.label}, ${point.label}`,
              code: point.code,
            })
          }
          aria-label={words('range.calculationOf', { label: `${curve.label}, ${point.label}`, code: point.code })}
        >
          {words('common.showCalculation')}
        </Button>
      ),
    },
  ]
  const rows = pointRows(curves)
  const left = rows.filter(({ point }) => 'kind' in point).length
  const title = words('range.points', { count: rows.length - left, excluded: left })
  return (
    <section className="stack stack-tight" aria-labelledby="points">
      <h2 id="points">{title}</h2>
      <DataTable
        caption={title}
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
