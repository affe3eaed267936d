'use client'

import type { Calculation, CalculationLine } from '@curebook/trade/procedure/calculation'
import { useWords } from '#lib/words.ts'
import { formulaOf } from './calculation-formula.ts'
import { DataTable, type Column } from './data-table.tsx'
import { Dialog } from './dialog.tsx'
import { EmptyState } from './empty-state.tsx'
import { QuantityText } from './quantity-text.tsx'

/** The working behind a number, line by line: symbol, name, formula, full value, unit, source. */
export function CalculationDialog({
  title,
  calculation,
  onClose,
}: {
  title: string
  calculation: Calculation
  onClose: () => void
}) {
  return (
    <Dialog title={title} onClose={onClose} wide>
      <CalculationTable calculation={calculation} caption={title} />
    </Dialog>
  )
}

export function CalculationTable({ calculation, caption }: { calculation: Calculation; caption: string }) {
  const words = useWords()
  const columns: readonly Column<CalculationLine>[] = [
    {
      key: 'symbol',
      head: words('common.calculation.symbol'),
      cell: (line) => <span className="reading">{line.symbol}</span>,
    },
    { key: 'name', head: words('common.calculation.name'), cell: (line) => line.name },
    {
      key: 'formula',
      head: words('common.calculation.formula'),
      cell: (line) => formulaOf(line, (operation) => words(`common.calculation.op.${operation}`)),
    },
    {
      key: 'value',
      head: words('common.calculation.value'),
      number: true,
      cell: (line) => <QuantityText digits={line.value} />,
    },
    { key: 'unit', head: words('common.calculation.unit'), cell: (line) => line.unit },
    { key: 'source', head: words('common.calculation.source'), cell: (line) => line.source },
  ]
  return (
    <DataTable
      caption={caption}
      captionHidden
      columns={columns}
      rows={calculation.lines}
      idOf={(line) => line.symbol}
      empty={<EmptyState title={words('common.calculation.none')} />}
    />
  )
}
