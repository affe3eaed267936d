'use client'

import { Button } from '#components/button.tsx'
import { useWords } from '#lib/words.ts'
import { CellField } from './cell-field.tsx'
import { copyDown, pathOfShare, shares, type ContentRow, type Share } from './plan-rows.ts'
import styles from './designs.module.css'

/** One row a content, all shares in % of dry aggregate; a column is filled from its first row in one act. */
export function ContentRows({
  rows,
  errors,
  onRows,
  onAdd,
}: {
  rows: readonly ContentRow[]
  errors: Readonly<Record<string, string>>
  onRows: (rows: readonly ContentRow[]) => void
  onAdd?: () => void
}) {
  const words = useWords()
  const set = (key: string, share: Share, value: string) =>
    onRows(rows.map((row) => (row.key === key ? { ...row, [share]: value } : row)))
  return (
    <div className="stack stack-tight" data-field="contents">
      <div className={styles.scroll}>
        <table className={styles.grid}>
          <caption className="sr-only">{words('designs.contents')}</caption>
          <thead>
            <tr>
              <th scope="col">{words('designs.content')}</th>
              {shares.map((share) => (
                <th key={share} scope="col">
                  {words(`designs.share.${share}`)}
                  <span className={styles.unit}>{words('designs.ofDryAggregate')}</span>
                </th>
              ))}
              <td />
            </tr>
          </thead>
          <tbody>
            {rows.map((row, index) => (
              <tr key={row.key}>
                <th scope="row">{index + 1}</th>
                {shares.map((share) => (
                  <td key={share}>
                    <CellField
                      name={pathOfShare(index, share)}
                      label={words('designs.shareOf', { share: words(`designs.share.${share}`), number: index + 1 })}
                      value={row[share]}
                      onChange={(event) => set(row.key, share, event.target.value)}
                      error={errors[pathOfShare(index, share)]}
                    />
                  </td>
                ))}
                <td>
                  {rows.length > 1 && (
                    <Button
                      tone="quiet"
                      size="small"
                      onClick={() => onRows(rows.filter(({ key }) => key !== row.key))}
                      aria-label={words('designs.takeOutNumbered', { number: index + 1 })}
                    >
                      {words('designs.takeOut')}
                    </Button>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <div className="row">
        {onAdd !== undefined && <Button onClick={onAdd}>{words('designs.addContent')}</Button>}
        {rows.length > 1 &&
          shares
            .filter((share) => share !== 'emulsionPercent')
            .map((share) => (
              <Button key={share} size="small" onClick={() => onRows(copyDown(rows, share))}>
                {words(`designs.copyDown.${share}`)}
              </Button>
            ))}
      </div>
    </div>
  )
}
