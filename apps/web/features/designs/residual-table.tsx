'use client'

import type { BatchSheet } from '@curebook/contract/designs'
import { DataTable, type Column } from '#components/data-table.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { basesOf, sheetsByContent } from './batch-sheet-rows.ts'

/** The residual binder that each content gives when it is weighed as planned, on each basis in use. */
export function ResidualTable({ sheets }: { sheets: readonly BatchSheet[] }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const rows = sheetsByContent(sheets)
  if (rows.length === 0) return null
  const columns: readonly Column<BatchSheet>[] = [
    {
      key: 'content',
      head: words('designs.mix'),
      cell: ({ emulsionPercent }) => words('designs.mixName', { content: digits(emulsionPercent) }),
    },
    ...basesOf(rows).map((basis): Column<BatchSheet> => ({
      key: basis,
      head: words('designs.residual'),
      unit: basis,
      number: true,
      cell: ({ residual }) => {
        const percent = residual.find((one) => one.basis === basis)?.percent
        return percent === undefined ? '' : <QuantityText digits={percent} decimals={2} />
      },
    })),
  ]
  return (
    <DataTable
      caption={words('designs.residualAbout')}
      columns={columns}
      rows={rows}
      idOf={({ mixId }) => mixId}
      sortParam="residual"
      empty={null}
    />
  )
}
