'use client'

import type { TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import { useQuery } from '@tanstack/react-query'
import { benchQueries } from '#features/bench/bench.queries.ts'
import { StepFacts } from '#features/bench/step-facts.tsx'
import { decimalsOfTarget } from '#features/designs/batch-sheet-rows.ts'
import { designQueries } from '#features/designs/designs.queries.ts'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { sheetColumns, targetOf, type SheetColumn, type SheetRow } from './sheet-columns.ts'
import styles from './sheet.module.css'

/** The sheet as it prints: what to do, within what, and a box for each time and reading. */
export function SheetPaper({ view, step, rows }: { view: TestView; step: StepDeclaration; rows: readonly SheetRow[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const format = useLaboratoryFormat()
  const queue = useQuery(benchQueries.queue(lab.id, 'all'))
  const batch = view.method.key === 'batch'
  const sheets = useQuery({ ...designQueries.batchSheets(lab.id, { id: view.design.id }), enabled: batch })
  const columns = sheetColumns(step, { start: words('bench.act.start'), end: words('bench.act.end') })
  const hasReadings = columns.some(({ kind }) => kind === 'reading')
  /** Where the act waits already, within what it has to come. */
  const windowOf = ({ testId }: SheetRow) => {
    const task = queue.data?.tasks.find((one) => one.testId === testId && one.stepKey === step.key)
    return [task?.opensAt, task?.closesAt].map((at) => (at ? format.instant(at, 'short') : '')).join(' – ')
  }
  const windows = rows.map(windowOf)
  const aim = (row: SheetRow, column: SheetColumn) => {
    if (!batch || column.kind !== 'reading') return ''
    const target = targetOf(sheets.data?.items ?? [], row, column.slot.declaration.key)
    return target === undefined
      ? ''
      : words('sheet.target', { mass: format.quantity(target, 'g', decimalsOfTarget(target)) })
  }
  const hasWindows = windows.some((text) => text !== ' – ')
  return (
    <section className={styles.sheet} aria-label={words('sheet.of', { step: step.title })}>
      <h2>{words('sheet.of', { step: step.title })}</h2>
      <p className="quiet">{words('sheet.under', { edition: view.edition.designation })}</p>
      <StepFacts step={step} parameters={view.edition.parameters} />
      <div className={styles.blanks}>
        {(['day', 'person', 'instrument', 'room'] as const).map((blank) => (
          <span key={blank}>{words(`sheet.blank.${blank}`)}</span>
        ))}
      </div>
      <div className={styles.scroll} role="group" tabIndex={0} aria-label={words('sheet.specimens')}>
        <table className={styles.boxes}>
          <thead>
            <tr>
              <th scope="col">{words('sheet.specimen')}</th>
              {hasWindows && <th scope="col">{words('bench.window')}</th>}
              {columns.map((column) => (
                <th key={column.key} scope="col">
                  <ColumnHead column={column} />
                </th>
              ))}
              {hasReadings && <th scope="col">{words('sheet.readAt')}</th>}
              <th scope="col">{words('sheet.remark')}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row, index) => (
              <tr key={row.testId}>
                <th scope="row">
                  <strong>{row.label}</strong> <span className="nowrap">{row.code}</span>
                </th>
                {hasWindows && <td className={styles.window}>{windows[index] === ' – ' ? '' : windows[index]}</td>}
                {columns.map((column) => (
                  <td key={column.key} className={styles.box}>
                    <span className={styles.aim}>{aim(row, column)}</span>
                  </td>
                ))}
                {hasReadings && <td className={styles.box} />}
                <td className={styles.remark} />
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="quiet">{words('sheet.about')}</p>
    </section>
  )
}

export function ColumnHead({ column }: { column: SheetColumn }) {
  const words = useWords()
  if (column.kind === 'act') return <>{words('sheet.timeOf', { act: column.label })}</>
  const { choices, unit, optional } = column.slot.declaration
  return (
    <>
      {column.label}
      {writtenUnit(unit) !== '' && `, ${writtenUnit(unit)}`}
      {choices !== undefined && ` (${choices.map(({ label }) => label).join(' / ')})`}
      {optional === true && <span className="quiet"> {words('sheet.ifApplies')}</span>}
    </>
  )
}
