'use client'

import type { Curve } from '@curebook/contract/range'
import { DataTable, type Column } from '#components/data-table.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { statisticsByUnit, type StatisticsRow } from './curve-groups.ts'

/** Means by content with n, the sample standard deviation and the range: what scatter is shown is named. */
export function StatisticsTables({ curves, basis }: { curves: readonly Curve[]; basis: string }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const spread = (value: string | null) =>
    value === null ? (
      <span className="quiet">{words('range.noSpread')}</span>
    ) : (
      <QuantityText digits={value} decimals={1} />
    )
  const columnsOf = (unit: string): readonly Column<StatisticsRow>[] => [
    {
      key: 'content',
      head: words('range.content'),
      sort: ({ mean }) => Number(mean.emulsionPercent),
      cell: ({ mean }) => words('range.contentOf', { content: digits(mean.emulsionPercent) }),
    },
    { key: 'test', head: words('range.test'), sort: ({ curve }) => curve.label, cell: ({ curve }) => curve.label },
    {
      key: 'x',
      head: words('range.residualAsWeighed'),
      unit: basis,
      number: true,
      cell: ({ mean }) => <QuantityText digits={mean.x} decimals={3} />,
    },
    { key: 'n', head: words('range.n'), number: true, sort: ({ mean }) => mean.n, cell: ({ mean }) => mean.n },
    {
      key: 'mean',
      head: words('range.mean'),
      unit,
      number: true,
      cell: ({ mean }) => <QuantityText digits={mean.y} decimals={1} />,
    },
    { key: 'sd', head: words('range.sd'), unit, number: true, cell: ({ mean }) => spread(mean.standardDeviation) },
    { key: 'range', head: words('range.spread'), unit, number: true, cell: ({ mean }) => spread(mean.range) },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="statistics">
      <h2 id="statistics">{words('range.statistics')}</h2>
      <p className="quiet">{words('range.statisticsAbout')}</p>
      {statisticsByUnit(curves).map(({ unit, rows }) => (
        <DataTable
          key={unit}
          caption={words('range.statisticsIn', { unit })}
          captionHidden
          columns={columnsOf(unit)}
          rows={rows}
          idOf={({ key }) => key}
          sortParam="statistics"
          empty={null}
        />
      ))}
    </section>
  )
}
