'use client'

import { useId } from 'react'
import { DataTable, type Column } from '#components/data-table.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import type { Case, CaseRow } from './cases.ts'
import styles from './validation.module.css'

/** One reference case: its inputs, and each outcome expected and obtained. */
export function CasePart({ item }: { item: Case }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const id = useId()
  // Words such as "refused: gain" and digits alike: only a plain number takes the laboratory's decimal sign.
  const shown = (text: string) => (/^[+-]?\d+(\.\d+)?$/.test(text) ? format.digits(text) : text)
  const columns: readonly Column<CaseRow>[] = [
    { key: 'outcome', head: words('validation.outcome'), cell: ({ unit }) => unit },
    { key: 'expected', head: words('validation.expected'), number: true, cell: ({ expected }) => shown(expected) },
    {
      key: 'obtained',
      head: words('validation.obtained'),
      cell: ({ obtained }) => <span className={`${styles.digits} reading`}>{shown(obtained)}</span>,
    },
    {
      key: 'tolerance',
      head: words('validation.tolerance'),
      number: true,
      cell: ({ tolerance }) => (tolerance === '' ? '' : words('validation.within', { tolerance: shown(tolerance) })),
    },
    {
      key: 'computation',
      head: words('validation.computation'),
      number: true,
      cell: ({ computation }) => computation,
    },
    {
      key: 'agrees',
      head: words('validation.verdict'),
      cell: ({ agrees }) => <StatusMark status={agrees ? 'agrees' : 'differs'} />,
    },
  ]
  return (
    <section className="stack stack-tight keep" aria-labelledby={id}>
      <h2 id={id}>{item.title}</h2>
      <p className="quiet small">{words('validation.caseOf', { method: item.method, source: item.source })}</p>
      <details className={styles.inputs} open>
        <summary>{words('validation.inputs', { count: item.inputs.length })}</summary>
        <ul className="plain-list">
          {item.inputs.map(({ name, value }, index) => (
            // The same name may stand twice: two weighings of one thing.
            <li key={`${index} ${name}`}>
              <span className="quiet">{name}</span> <span className="reading nowrap">{value}</span>
            </li>
          ))}
        </ul>
      </details>
      <DataTable
        caption={words('validation.outcomesOf', { title: item.title })}
        captionHidden
        columns={columns}
        rows={item.rows}
        idOf={({ unit }) => unit}
        empty={null}
      />
    </section>
  )
}
