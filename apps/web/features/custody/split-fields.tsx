'use client'

import { Button } from '#components/button.tsx'
import { FieldSet } from '#components/field-set.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useWords } from '#lib/words.ts'
import { pathOfRow, type SplitRow } from './split-rows.ts'

/** Rows of equal pieces: how many, of which kind, what each weighs. */
export function SplitFields({
  rows,
  onRows,
  onAdd,
  errors,
}: {
  rows: readonly SplitRow[]
  onRows: (rows: readonly SplitRow[]) => void
  onAdd: () => void
  errors: Readonly<Record<string, string>>
}) {
  const words = useWords()
  const change = (key: string, changes: Partial<SplitRow>) =>
    onRows(rows.map((row) => (row.key === key ? { ...row, ...changes } : row)))
  return (
    <div className="stack" data-field="pieces">
      {rows.map((row, index) => (
        <FieldSet key={row.key} legend={words('custody.piecesNumbered', { number: index + 1 })}>
          <div className="row row-top">
            <TextField
              name={pathOfRow(index, 'count')}
              label={words('custody.howMany')}
              inputMode="numeric"
              autoComplete="off"
              value={row.count}
              onChange={(event) => change(row.key, { count: event.target.value })}
            />
            <Select
              name={pathOfRow(index, 'kind')}
              label={words('custody.pieceKind')}
              value={row.kind}
              onChange={(event) => change(row.key, { kind: event.target.value === 'split' ? 'split' : 'bag' })}
              options={[
                { value: 'bag', label: words('custody.kind.bag') },
                { value: 'split', label: words('custody.kind.split') },
              ]}
            />
            <MeasureField
              name={pathOfRow(index, 'mass')}
              label={words('custody.massOfEach')}
              quantity={words('custody.massShort')}
              unit="g"
              value={row.mass}
              onValue={(mass) => change(row.key, { mass })}
              error={errors[pathOfRow(index, 'mass')]}
            />
          </div>
          {rows.length > 1 && (
            <div>
              <Button
                tone="quiet"
                size="small"
                onClick={() => onRows(rows.filter(({ key }) => key !== row.key))}
                aria-label={words('custody.takeOutNumbered', { number: index + 1 })}
              >
                {words('custody.takeOut')}
              </Button>
            </div>
          )}
        </FieldSet>
      ))}
      <div>
        <Button onClick={onAdd}>{words('custody.morePieces')}</Button>
      </div>
    </div>
  )
}
