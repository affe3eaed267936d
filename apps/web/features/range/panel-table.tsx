'use client'

import type { PanelResult } from '@curebook/contract/panel-results'
import type { PanelRow } from '@curebook/contract/range'
import { sourceMark } from '@curebook/contract/source-mark'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useWords } from '#lib/words.ts'
import { EnteredValue } from './entered-value.tsx'
import { decimalsOf, marks } from './panel-marks.ts'
import { ShowCalculation } from './show-calculation.tsx'
import styles from './range.module.css'

/** A value that was entered for what was also found here. */
function BesideValue({ result }: { result: PanelResult }) {
  return (
    <div>
      {result.typed} {writtenUnit(result.unit)}
      <EnteredValue result={result} />
    </div>
  )
}

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
  const enterAct = (row: PanelRow) =>
    onEnter !== undefined &&
    enterable.includes(row.key) && (
      <div className="no-print">
        <Button size="small" onClick={() => onEnter(row)}>
          <span className="nowrap">
            {words((row.entered ?? row.beside) === null ? 'range.enterResult' : 'range.replaceResult')}
          </span>{' '}
          <span className="sr-only">{row.label}</span>
        </Button>
      </div>
    )
  const columns: readonly Column<PanelRow>[] = [
    { key: 'property', head: words('range.propertyHead'), cell: ({ label }) => label },
    {
      key: 'verdict',
      head: words('range.verdict'),
      sort: ({ verdict }) => verdict,
      cell: ({ verdict }) => <StatusMark status={marks[verdict]} />,
    },
    { key: 'limit', head: words('range.limit'), cell: ({ limit }) => <span className={styles.wide}>{limit}</span> },
    {
      key: 'value',
      head: words('range.value'),
      cell: (row) => {
        const { label, value, unit, classes, at, calculation, entered, beside } = row
        return value === null ? (
          <>
            {classes !== null && `${classes} ${at ?? ''}`}
            {beside !== null && <BesideValue result={beside} />}
            {enterAct(row)}
          </>
        ) : (
          <>
            <QuantityText digits={value} unit={unit} decimals={decimalsOf({ unit }, value)} /> {at}
            {entered !== null && <EnteredValue result={entered} />}
            {beside !== null && <BesideValue result={beside} />}
            {calculation !== null && (
              <div className="no-print">
                <ShowCalculation
                  title={words('range.calculationOfValue', { label })}
                  calculation={calculation}
                  decimals={decimalsOf({ unit }, value)}
                />
              </div>
            )}
            {enterAct(row)}
          </>
        )
      },
    },
    {
      key: 'margin',
      head: words('range.margin'),
      cell: ({ margin, unit }) =>
        margin !== null && <QuantityText digits={margin} unit={unit} decimals={decimalsOf({ unit }, margin)} />,
    },
    {
      key: 'n',
      head: words('range.n'),
      number: true,
      cell: ({ n, asked }) =>
        n === null || asked === undefined ? (
          (n ?? '')
        ) : (
          <>
            {words('range.nOfAsked', { n, asked })}
            <div className="quiet">{words('range.askedFor')}</div>
          </>
        ),
    },
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
