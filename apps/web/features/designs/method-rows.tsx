'use client'

import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { CellField } from './cell-field.tsx'
import { digitsOf, pathOfMethod, pathOfSpare, type ContentRow, type MethodRow } from './plan-rows.ts'
import styles from './designs.module.css'

/** Which tests, how many specimens of each content, and spares at chosen contents. */
export function MethodRows({
  contents,
  rows,
  names,
  errors,
  onRows,
}: {
  contents: readonly ContentRow[]
  rows: readonly MethodRow[]
  names: ReadonlyMap<string, string>
  errors: Readonly<Record<string, string>>
  onRows: (rows: readonly MethodRow[]) => void
}) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const set = (methodKey: string, change: Partial<MethodRow>) =>
    onRows(rows.map((row) => (row.methodKey === methodKey ? { ...row, ...change } : row)))
  const contentName = ({ emulsionPercent }: ContentRow, index: number) =>
    emulsionPercent.trim() === ''
      ? words('designs.contentNumber', { number: index + 1 })
      : words('designs.percent', { value: digits(digitsOf(emulsionPercent)) })
  return (
    <div className={styles.scroll} data-field="methods">
      <table className={styles.grid}>
        <caption className="sr-only">{words('designs.tests')}</caption>
        <thead>
          <tr>
            <th scope="col">{words('designs.test')}</th>
            <th scope="col">{words('designs.replicates')}</th>
            {contents.map((content, index) => (
              <th key={content.key} scope="col">
                {words('designs.sparesAt')}
                <span className={styles.unit}>{contentName(content, index)}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => {
            const name = names.get(row.methodKey) ?? row.methodKey
            const path = `${pathOfMethod(rows, row.methodKey)}.replicates`
            return (
              <tr key={row.methodKey}>
                <th scope="row">
                  <label className="row">
                    <input
                      type="checkbox"
                      checked={row.chosen}
                      onChange={(event) => set(row.methodKey, { chosen: event.target.checked })}
                    />
                    {name}
                  </label>
                </th>
                <td>
                  <CellField
                    name={path}
                    label={words('designs.replicatesOf', { test: name })}
                    short
                    inputMode="numeric"
                    disabled={!row.chosen}
                    value={row.replicates}
                    onChange={(event) => set(row.methodKey, { replicates: event.target.value })}
                    error={row.chosen ? errors[path] : undefined}
                  />
                </td>
                {contents.map((content, index) => {
                  const sparePath = pathOfSpare(contents, rows, row, content.key)
                  return (
                    <td key={content.key}>
                      <CellField
                        name={sparePath}
                        label={words('designs.sparesOf', { test: name, content: contentName(content, index) })}
                        short
                        inputMode="numeric"
                        disabled={!row.chosen}
                        value={row.spares[content.key] ?? ''}
                        onChange={(event) =>
                          set(row.methodKey, { spares: { ...row.spares, [content.key]: event.target.value } })
                        }
                        error={row.chosen ? errors[sparePath] : undefined}
                      />
                    </td>
                  )
                })}
              </tr>
            )
          })}
        </tbody>
      </table>
    </div>
  )
}
