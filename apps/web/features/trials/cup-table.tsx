'use client'

import type { ReactNode } from 'react'
import designStyles from '#features/designs/designs.module.css'
import { useWords } from '#lib/words.ts'
import { cupFields, isWord } from './cup-draft.ts'
import styles from './trials.module.css'

/** One row a cup, units in the heads. */
export function CupTable({ children }: { children: ReactNode }) {
  const words = useWords()
  return (
    <div className={designStyles.scroll} tabIndex={0} role="group" aria-label={words('trials.title')}>
      <table className={`${designStyles.grid} ${styles.table}`}>
        <caption className="sr-only">{words('trials.title')}</caption>
        <thead>
          <tr>
            <th scope="col">{words('trials.cup')}</th>
            {cupFields.map((field) => (
              <th key={field} scope="col" className={isWord(field) ? undefined : styles.amount}>
                {words(`trials.head.${field}`)}
                {!isWord(field) && <span className={designStyles.unit}>{words(`trials.unit.${field}`)}</span>}
              </th>
            ))}
            <td />
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  )
}
