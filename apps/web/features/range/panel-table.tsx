'use client'

import type { PanelRow } from '@curebook/contract/range'
import { sourceMark } from '@curebook/contract/source-mark'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { useWords } from '#lib/words.ts'
import { EnteredValue } from './entered-value.tsx'
import { ShowCalculation } from './show-calculation.tsx'
import styles from './range.module.css'

const marks = {
  pass: 'pass',
  fail: 'fail',
  undecided: 'undecided',
  'not tested': 'not-tested',
  'no limit held': 'no-limit',
} as const satisfies Record<PanelRow['verdict'], Status>

/** Every property of the specification in the same row form and size, tested or not: nothing untested can be overlooked. */
export function PanelTable({
  rows,
  overall,
  enterable = [],
  onEnter,
}: {
  rows: readonly PanelRow[]
  overall: string
  /** Keys of properties whose result may be entered here. */
  enterable?: readonly string[]
  onEnter?: (row: PanelRow) => void
}) {
  const words = useWords()
  const enter: Column<PanelRow> = {
    key: 'enter',
    head: <span className="sr-only">{words('range.enterHead')}</span>,
    cell: (row) =>
      enterable.includes(row.key) && (
        <span className="nowrap">
          <Button onClick={() => onEnter?.(row)}>
            {words(row.entered === null ? 'range.enterResult' : 'range.replaceResult')}{' '}
            <span className="sr-only">{row.label}</span>
          </Button>
        </span>
      ),
  }
  const columns: readonly Column<PanelRow>[] = [
    { key: 'property', head: words('range.propertyHead'), cell: ({ label }) => label },
    {
      key: 'verdict',
      head: words('range.verdict'),
      sort: ({ verdict }) => verdict,
      cell: ({ verdict }) => <StatusMark status={marks[verdict]} />,
    },
    ...(onEnter === undefined ? [] : [enter]),
    { key: 'limit', head: words('range.limit'), cell: ({ limit }) => <span className={styles.wide}>{limit}</span> },
    {
      key: 'value',
      head: words('range.value'),
      cell: ({ label, value, unit, at, calculation, entered }) =>
        value === null ? (
          ''
        ) : (
          <>
            <QuantityText digits={value} unit={unit} decimals={decimalsOf(value, entered !== null)} /> {at}
            {entered !== null && <EnteredValue result={entered} />}
            {calculation !== null && (
              <div className="no-print">
                <ShowCalculation
                  title={words('range.calculationOfValue', { label })}
                  calculation={calculation}
                  decimals={decimalsOf(value, entered !== null)}
                />
              </div>
            )}
          </>
        ),
    },
    {
      key: 'margin',
      head: words('range.margin'),
      cell: ({ margin, unit, entered }) =>
        margin !== null && <QuantityText digits={margin} unit={unit} decimals={decimalsOf(margin, entered !== null)} />,
    },
    { key: 'n', head: words('range.n'), number: true, cell: ({ n }) => n ?? '' },
    {
      key: 'sentence',
      head: words('range.inWords'),
      cell: ({ sentence }) => <span className={styles.wide}>{sentence}</span>,
    },
    {
      key: 'source',
      head: words('range.source'),
      cell: ({ limitSource, certainty }) => (
        <span className={styles.wide}>{sourceMark({ source: limitSource, certainty })}</span>
      ),
    },
  ]
  return (
    <>
      <p className="strong">{overall}</p>
      <DataTable
        caption={words('range.panel')}
        captionHidden
        columns={columns}
        rows={rows}
        idOf={({ key }) => key}
        sortParam="panel"
        empty={<EmptyState title={words('range.noPanel')} />}
      />
    </>
  )
}

/** A computed value is cut for the eye; what was entered stands as typed, unless converting it made it long. */
function decimalsOf(digits: string, isEntered: boolean): number | undefined {
  if (!isEntered) return 1
  return (digits.split('.')[1]?.length ?? 0) > 2 ? 2 : undefined
}
