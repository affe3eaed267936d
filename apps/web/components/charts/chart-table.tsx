'use client'

import type { ChartModel, ChartPoint, ChartSeries } from '@curebook/contract/chart-model'
import { useState } from 'react'
import { copyText } from '#lib/copy-text.ts'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { Button } from '../button.tsx'
import { DataTable, type Column } from '../data-table.tsx'
import { chartTableText } from './chart-table-text.ts'

export type PointRow = { readonly series: ChartSeries; readonly point: ChartPoint; readonly key: string }

/** The numbers of a chart, to be read, sorted and copied. */
export function ChartTable({ model, rows }: { model: ChartModel; rows: readonly PointRow[] }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const [copied, setCopied] = useState<'done' | 'refused'>()
  const copy = async () => {
    const heads = {
      specimen: model.pointsAs?.head ?? words('common.chart.specimen'),
      series: words('common.chart.series'),
      remarks: words('common.chart.remarks'),
    }
    const text = chartTableText(model, rows, { heads, decimalSign: format.decimalSign })
    setCopied((await copyText(text)) ? 'done' : 'refused')
  }
  const columns: readonly Column<PointRow>[] = [
    {
      key: 'code',
      head: model.pointsAs?.head ?? words('common.chart.specimen'),
      cell: ({ point }) => <span className="reading">{point.label}</span>,
    },
    { key: 'series', head: words('common.chart.series'), cell: ({ series }) => series.label },
    {
      key: 'x',
      head: model.x.label,
      unit: model.x.unit,
      number: true,
      cell: ({ point }) => format.digits(point.xDigits, 2),
    },
    {
      key: 'y',
      head: model.y.label,
      unit: model.y.unit,
      number: true,
      cell: ({ point }) => format.digits(point.yDigits, model.pointsAs?.yDecimals ?? 1),
    },
    { key: 'flags', head: words('common.chart.remarks'), cell: ({ point }) => point.flags.join(', ') },
  ]
  return (
    <details>
      <summary>{words('common.chart.table', { count: rows.length })}</summary>
      <div className="row no-print">
        <Button size="small" onClick={() => void copy()}>
          {words('common.chart.copy')}
        </Button>
        <span role="status">{copied !== undefined && words(`common.chart.copied.${copied}`)}</span>
      </div>
      <DataTable
        caption={model.title}
        captionHidden
        columns={columns}
        rows={rows}
        idOf={({ key }) => key}
        empty={null}
        sortParam="chart-sort"
      />
    </details>
  )
}
