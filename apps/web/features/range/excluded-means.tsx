'use client'

import { shownDecimals } from '@curebook/contract/shown-decimals'
import type { Curve } from '@curebook/contract/range'
import { DataTable, type Column } from '#components/data-table.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { excludedMeanRows, type ExcludedMeanRow } from './curve-groups.ts'
import { ShowCalculation } from './show-calculation.tsx'

/** Where a result does not count: the mean that counts beside the one with it, so that both can be seen. */
export function ExcludedMeans({ curves }: { curves: readonly Curve[] }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const rows = excludedMeanRows(curves)
  if (rows.length === 0) return null
  const contentOf = ({ mean }: ExcludedMeanRow) => words('range.contentOf', { content: digits(mean.emulsionPercent) })
  const columns: readonly Column<ExcludedMeanRow>[] = [
    { key: 'content', head: words('range.content'), cell: contentOf },
    { key: 'test', head: words('range.test'), cell: ({ curve }) => curve.label },
    {
      key: 'without',
      head: words('range.meanWithout'),
      cell: ({ curve, mean: { counting } }) =>
        counting === null ? (
          <span className="quiet">{words('range.noneCounts')}</span>
        ) : (
          <>
            <QuantityText digits={counting.y} unit={curve.unit} decimals={shownDecimals(curve.unit)} />{' '}
            {words('range.nOf', { n: counting.n })}
          </>
        ),
    },
    {
      key: 'with',
      head: words('range.meanWith'),
      cell: ({ curve, mean: { withExcluded } }) => (
        <>
          <QuantityText digits={withExcluded.y} unit={curve.unit} decimals={shownDecimals(curve.unit)} />{' '}
          {words('range.nOf', { n: withExcluded.n })}
        </>
      ),
    },
    {
      key: 'calculation',
      head: words('range.calculation'),
      cell: (row) => (
        <ShowCalculation
          title={words('range.calculationWith', { label: row.curve.label, content: contentOf(row) })}
          calculation={row.mean.calculation}
        />
      ),
    },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="excluded">
      <h2 id="excluded">{words('range.excludedMeans')}</h2>
      <p className="quiet">{words('range.excludedAbout')}</p>
      <DataTable
        caption={words('range.excludedMeans')}
        captionHidden
        columns={columns}
        rows={rows}
        idOf={({ key }) => key}
        sortParam="excluded"
        empty={null}
      />
    </section>
  )
}
