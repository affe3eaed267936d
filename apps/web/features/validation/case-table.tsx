'use client'

import { DataTable, type Column } from '#components/data-table.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import type { MethodCases, OutcomeRow } from './cases.ts'
import styles from './validation.module.css'

/** The reference cases of one method: inputs, and each outcome expected and obtained. */
export function CaseTable({ cases: { method, rows } }: { cases: MethodCases }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  // Words such as "refused: gain" and digits alike: only a plain number takes the laboratory's decimal sign.
  const shown = (text: string) => (/^[+-]?\d+(\.\d+)?$/.test(text) ? format.digits(text) : text)
  const columns: readonly Column<OutcomeRow>[] = [
    {
      key: 'case',
      head: words('validation.case'),
      cell: ({ title, source, inputs, first }) => (
        <div className={styles.case}>
          {title}
          {first && (
            <>
              <span className={styles.more}>{source}</span>
              <ul className={`${styles.more} ${styles.inputs}`} aria-label={words('validation.inputs')}>
                {inputs.map(({ name, value }, index) => (
                  // The same name may stand twice: two weighings of one thing.
                  <li key={`${index} ${name}`}>
                    {name} <span className="nowrap">{value}</span>
                  </li>
                ))}
              </ul>
            </>
          )}
        </div>
      ),
    },
    { key: 'outcome', head: words('validation.outcome'), cell: ({ unit }) => unit },
    {
      key: 'expected',
      head: words('validation.expected'),
      cell: ({ expected }) => <span className="reading">{shown(expected)}</span>,
    },
    {
      key: 'obtained',
      head: words('validation.obtained'),
      cell: ({ obtained }) => <div className={`${styles.digits} reading`}>{shown(obtained)}</div>,
    },
    {
      key: 'tolerance',
      head: words('validation.tolerance'),
      cell: ({ tolerance }) =>
        tolerance !== '' && (
          <span className="reading nowrap">{words('validation.within', { tolerance: shown(tolerance) })}</span>
        ),
    },
    {
      key: 'agrees',
      head: words('validation.verdict'),
      cell: ({ agrees }) => <StatusMark status={agrees ? 'agrees' : 'differs'} />,
    },
  ]
  return (
    <DataTable
      caption={words('validation.casesOf', { method, computation: rows[0]?.computation ?? '' })}
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      empty={null}
    />
  )
}
