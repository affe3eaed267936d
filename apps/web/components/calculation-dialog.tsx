'use client'

import type { Calculation, CalculationLine } from '@curebook/trade/procedure/calculation'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import Link from 'next/link'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { formulaOf } from './calculation-formula.ts'
import { useCalculationLinks } from './calculation-links.ts'
import { reportedOf } from './calculation-reported.ts'
import { DataTable, type Column } from './data-table.tsx'
import { Dialog } from './dialog.tsx'
import { EmptyState } from './empty-state.tsx'
import { QuantityText } from './quantity-text.tsx'

/**
 * The working behind a number, line by line: symbol, name, formula, full value, unit, source, and the way to its inputs.
 * `decimals` are those to which the number is cut where it is shown.
 */
export function CalculationDialog({
  title,
  calculation,
  decimals,
  edition,
  onClose,
}: {
  title: string
  calculation: Calculation
  decimals?: number
  /** The method's edition by which it was computed. */
  edition?: string
  onClose: () => void
}) {
  const words = useWords()
  return (
    <Dialog title={title} onClose={onClose} wide>
      <Reported calculation={calculation} decimals={decimals} />
      {edition !== undefined && <p>{words('common.calculation.edition', { edition })}</p>}
      <CalculationTable calculation={calculation} caption={title} />
    </Dialog>
  )
}

/** The number as shown beside all of its digits, with the rule by which it was cut. */
function Reported({ calculation, decimals }: { calculation: Calculation; decimals: number | undefined }) {
  const words = useWords()
  const { digits, quantity } = useLaboratoryFormat()
  const last = calculation.lines.at(-1)
  const reported = last && reportedOf(last.value, decimals)
  if (!last || !reported) return null
  return (
    <p>
      {words('common.calculation.reported', {
        shown: quantity(reported.cut, last.unit),
        full: digits(last.value),
        step: digits(reported.step),
      })}
    </p>
  )
}

export function CalculationTable({ calculation, caption }: { calculation: Calculation; caption: string }) {
  const words = useWords()
  const linkOf = useCalculationLinks()
  const links: Column<CalculationLine> = {
    key: 'from',
    head: words('common.calculation.from'),
    cell: ({ input }) => {
      const link = input && linkOf?.(input)
      return link ? (
        <Link href={link.href} prefetch={false} className="nowrap">
          {link.label}
        </Link>
      ) : null
    },
  }
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
    { key: 'unit', head: words('common.calculation.unit'), cell: (line) => writtenUnit(line.unit) },
    { key: 'source', head: words('common.calculation.source'), cell: (line) => line.source },
    ...(linkOf === null ? [] : [links]),
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
