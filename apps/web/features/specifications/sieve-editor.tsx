'use client'

import type { GradationBand } from '@curebook/contract/specifications'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Checkbox } from '#components/choices.tsx'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { certainties } from './limit-editor.tsx'
import { sievePath } from './written-form.ts'
import styles from './specifications.module.css'

type Sieve = GradationBand['sieves'][number]
const emptySieve: Sieve = { size: '', label: '', from: '', to: '', tolerance: null }

/** The gradation band of a specification that is written, sieve by sieve; `onCount` tells how many, null where none is held; `onRemoved` which one was taken out. */
export function SieveEditor({
  band,
  errors,
  onCount,
  onRemoved,
}: {
  band: GradationBand | null
  errors: Readonly<Record<string, string>>
  onCount: (count: number | null) => void
  onRemoved: (index: number) => void
}) {
  const words = useWords()
  const [held, setHeld] = useState(band !== null)
  const [rows, setRows] = useState(() => (band?.sieves ?? [emptySieve]).map((start) => ({ id: newId(), start })))
  const change = (isHeld: boolean, next: typeof rows) => {
    setHeld(isHeld)
    setRows(next)
    onCount(isHeld ? next.length : null)
  }
  const digits = { inputMode: 'decimal', autoComplete: 'off' } as const
  return (
    <section className="stack stack-tight" aria-labelledby="gradation-band" data-field="gradationBand.sieves">
      <h2 id="gradation-band">{words('specifications.gradation')}</h2>
      <Checkbox
        name="gradationBand.held"
        label={words('specifications.holdsGradation')}
        checked={held}
        onChange={(event) => change(event.target.checked, rows)}
        error={errors['gradationBand.sieves']}
      />
      {/* Hidden and not taken away: what was typed is there again when it is ticked again. */}
      <div hidden={!held}>
        <div className="stack stack-tight">
          {rows.map(({ id, start }, index) => {
            const at = (field: keyof Sieve) => ({
              name: sievePath(index, field),
              error: errors[sievePath(index, field)],
              defaultValue: start[field] ?? '',
              autoComplete: 'off',
            })
            return (
              <fieldset
                key={id}
                className={styles.sieve}
                data-part={words('specifications.sieveOf', { number: index + 1 })}
              >
                <legend className="sr-only">{words('specifications.sieveOf', { number: index + 1 })}</legend>
                <TextField {...at('size')} {...digits} label={words('specifications.sieveSize')} />
                <TextField {...at('label')} label={words('specifications.sieveName')} />
                <TextField {...at('from')} {...digits} label={words('specifications.sieveFrom')} />
                <TextField {...at('to')} {...digits} label={words('specifications.sieveTo')} />
                <TextField {...at('tolerance')} {...digits} label={words('specifications.sieveTolerance')} />
                <Button
                  size="small"
                  aria-label={words('specifications.removeSieveOf', { number: index + 1 })}
                  onClick={() => {
                    change(
                      true,
                      rows.filter((row) => row.id !== id),
                    )
                    onRemoved(index)
                  }}
                >
                  {words('specifications.removeSieve')}
                </Button>
              </fieldset>
            )
          })}
          <div>
            <Button size="small" onClick={() => change(true, [...rows, { id: newId(), start: emptySieve }])}>
              {words('specifications.addSieve')}
            </Button>
          </div>
          <div className={styles.grid}>
            <TextField
              name="gradationBand.source"
              label={words('specifications.gradationSource')}
              defaultValue={band?.source ?? ''}
              error={errors['gradationBand.source']}
              autoComplete="off"
            />
            <TextField
              name="gradationBand.clause"
              label={words('specifications.gradationClause')}
              defaultValue={band?.clause ?? ''}
              error={errors['gradationBand.clause']}
              autoComplete="off"
            />
            <Select
              name="gradationBand.certainty"
              label={words('specifications.gradationMark')}
              defaultValue={band?.certainty ?? 'by contract'}
              options={certainties.map((value) => ({
                value,
                label: words(`specifications.certainty.${value.replaceAll(' ', '-')}`),
              }))}
            />
          </div>
        </div>
      </div>
    </section>
  )
}
