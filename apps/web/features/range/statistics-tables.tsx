'use client'

import type { Design } from '@curebook/contract/designs'
import type { Curve } from '@curebook/contract/range'
import { shownDecimals } from '@curebook/contract/shown-decimals'
import { useQuery } from '@tanstack/react-query'
import { DataTable, type Column } from '#components/data-table.tsx'
import { ErrorState } from '#components/error-state.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { AcceptableCell, OutlierCell } from '#features/replicates/replicate-cells.tsx'
import { ReplicateNotes } from '#features/replicates/replicate-notes.tsx'
import { replicateQueries } from '#features/replicates/replicates.queries.ts'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { statisticsByUnit, type StatisticsRow } from './curve-groups.ts'

/** Means by content with n, the sample standard deviation and the range: what scatter is shown is named. */
export function StatisticsTables({
  design,
  curves,
  basis,
}: {
  design: Design
  curves: readonly Curve[]
  basis: string
}) {
  const words = useWords()
  const lab = useLaboratory()
  const replicates = useQuery(replicateQueries.of(lab.id, design))
  const series = (replicates.data?.groups ?? []).filter(({ place }) => place === 'series')
  const groupOf = ({ curve, mean }: StatisticsRow) =>
    series.find((group) => group.curve?.key === curve.key && group.curve.mixId === mean.mixId)
  const { digits } = useLaboratoryFormat()
  const spread = (value: string | null, unit: string) =>
    value === null ? (
      <span className="quiet">{words('range.noSpread')}</span>
    ) : (
      <QuantityText digits={value} decimals={shownDecimals(unit)} />
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
      cell: ({ mean }) => <QuantityText digits={mean.y} decimals={shownDecimals(unit)} />,
    },
    {
      key: 'sd',
      head: words('range.sd'),
      unit,
      number: true,
      cell: ({ mean }) => spread(mean.standardDeviation, unit),
    },
    { key: 'range', head: words('range.spread'), unit, number: true, cell: ({ mean }) => spread(mean.range, unit) },
    ...(series.some(({ repeatability }) => repeatability !== null)
      ? [
          {
            key: 'acceptable',
            head: words('replicates.acceptable'),
            cell: (row: StatisticsRow) => <AcceptableCell group={groupOf(row)} />,
          },
        ]
      : []),
    ...(series.some(({ n }) => n > 2)
      ? [
          {
            key: 'outliers',
            head: words('replicates.outliers'),
            cell: (row: StatisticsRow) => <OutlierCell group={groupOf(row)} />,
          },
        ]
      : []),
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
      {replicates.isError && replicates.data === undefined && (
        <ErrorState
          what={words('replicates.these')}
          error={replicates.error}
          onRetry={() => void replicates.refetch()}
        />
      )}
      <ReplicateNotes groups={series} apart={[]} />
    </section>
  )
}
