'use client'

import type { RangeView } from '@curebook/contract/range'
import { QuantityText } from '#components/quantity-text.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { decimalsOf, marks } from '#features/range/panel-marks.ts'
import { useWords } from '#lib/words.ts'
import { decisiveRows, sharedContent } from './decisive-rows.ts'
import styles from './review.module.css'

/** The panel in short: each value judged with its limit, margin and verdict; what was not judged by name, in the words of the whole. */
export function DecisiveTable({ view }: { view: RangeView }) {
  const words = useWords()
  const judged = decisiveRows(view.panel)
  const shared = sharedContent(judged)
  return (
    <div className="stack stack-tight">
      <p className="strong">{view.sentence}</p>
      {judged.length > 0 && (
        <div className={styles.scroll} role="group" tabIndex={0} aria-label={words('review.decisiveShort')}>
          <table className={styles.decisive}>
            <caption className="sr-only">{words('review.decisiveShort')}</caption>
            <thead>
              <tr>
                {(['propertyHead', 'value', 'limit', 'margin', 'verdict'] as const).map((key) => (
                  <th key={key} scope="col">
                    {words(`range.${key}`)}
                    {key === 'propertyHead' && shared !== null && <span className="quiet"> {shared}</span>}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {judged.map(({ key, label, value, unit, at, limit, margin, verdict }) => (
                <tr key={key}>
                  <th scope="row">{label}</th>
                  <td>
                    {value !== null && (
                      <QuantityText digits={value} unit={unit} decimals={decimalsOf({ unit }, value)} />
                    )}{' '}
                    {shared === null && <span className="quiet">{at}</span>}
                  </td>
                  <td className={styles.limit}>{limit}</td>
                  <td>
                    {margin !== null && (
                      <QuantityText digits={margin} unit={unit} decimals={decimalsOf({ unit }, margin)} />
                    )}
                  </td>
                  <td>
                    <StatusMark status={marks[verdict]} />
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {/* Names all that was not judged, however long the panel is: below what was, so that both are seen at once. */}
      <p className="small">{view.overall}</p>
    </div>
  )
}
