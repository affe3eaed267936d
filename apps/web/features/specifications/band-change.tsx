'use client'

import type { Specification } from '@curebook/contract/specifications'
import { Button } from '#components/button.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { TextField } from '#components/text-field.tsx'
import { useWords } from '#lib/words.ts'
import { BandText } from './band-text.tsx'
import styles from './specifications.module.css'

/** The residual binder that the guideline allows, and what the contract allows instead. */
export function BandChange({
  band,
  changed,
  onToggle,
  errors,
}: {
  band: Specification['residualBand']
  changed: boolean
  onToggle: () => void
  errors: Readonly<Record<string, string>>
}) {
  const words = useWords()
  const name = words('specifications.band')
  return (
    <section className={`${styles.change} panel`} data-open={changed} aria-label={name}>
      <div className="stack stack-tight">
        <h3>{name}</h3>
        <div>
          <span className="quiet">{words('specifications.builtIn')}</span> <BandText band={band} />
        </div>
      </div>
      <div className={styles.act}>
        <Button
          size="small"
          aria-label={words(changed ? 'specifications.keepOf' : 'specifications.changeOf', { name })}
          aria-expanded={changed}
          onClick={onToggle}
        >
          {words(changed ? 'specifications.keepIt' : 'specifications.changeIt')}
        </Button>
      </div>
      {changed && (
        <div className={`${styles.fields} stack`}>
          <MeasureField
            name="residualBand.from"
            label={words('specifications.bandFrom')}
            hint={words('specifications.bandOpen')}
            quantity={words('specifications.bandFromShort')}
            unit="% of dry aggregate"
            optional
            error={errors['residualBand.from'] ?? errors.residualBand}
          />
          <MeasureField
            name="residualBand.to"
            label={words('specifications.bandTo')}
            hint={words('specifications.bandOpen')}
            quantity={words('specifications.bandToShort')}
            unit="% of dry aggregate"
            optional
            error={errors['residualBand.to']}
          />
          <TextField
            name="residualBand.reason"
            label={words('specifications.reasonOf', { name })}
            hint={words('specifications.reasonHint')}
            autoComplete="off"
            error={errors['residualBand.reason']}
          />
        </div>
      )}
    </section>
  )
}
