'use client'

import type { Design, EnteredResult } from '@curebook/contract/designs'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DayText, TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { mayChange } from './design-state.ts'
import { EnterResultDialog } from './enter-result-dialog.tsx'
import styles from './designs.module.css'

type Key = EnteredResult['key']

/** Residue and aggregate moisture: entered, not computed here; each with who, when, and where it comes from. */
export function EnteredPart({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const [entering, setEntering] = useState<Key>()
  const may = mayChange(design) && lab.may('design:enter-result')
  const values: readonly [Key, EnteredResult | null][] = [
    ['residue', design.residue],
    ['aggregate-moisture', design.moisture],
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="entered">
      <h2 id="entered">{words('designs.entered')}</h2>
      <div className="columns">
        {values.map(([key, value]) => (
          <section key={key} className="panel stack stack-tight" aria-labelledby={`entered-${key}`}>
            <h3 id={`entered-${key}`}>{words(`designs.entered.${key}`)}</h3>
            {value === null ? (
              <p className="quiet">{words(`designs.enteredMissing.${key}`)}</p>
            ) : (
              <EnteredValue value={value} />
            )}
            {may && (
              <div className="row no-print">
                <Button tone={value === null ? 'main' : 'plain'} onClick={() => setEntering(key)}>
                  {words(value === null ? `designs.enter.${key}` : `designs.correct.${key}`)}
                </Button>
              </div>
            )}
          </section>
        ))}
      </div>
      {entering !== undefined && (
        <EnterResultDialog design={design} resultKey={entering} onClose={() => setEntering(undefined)} />
      )}
    </section>
  )
}

function EnteredValue({ value }: { value: EnteredResult }) {
  const words = useWords()
  const { quantity } = useLaboratoryFormat()
  // The zeros that were typed say how finely it was read.
  const typed = readTypedNumber(value.typed, { unit: value.unit, label: '' })
  return (
    <>
      <p className={styles.value}>{quantity(typed.ok ? typed.value : value.value, value.unit)}</p>
      {value.supersedes !== null && (
        <p className="small">
          <span className={styles.old}>{value.supersedes.typed}</span>{' '}
          {words('designs.replacedWhy', { reason: value.supersedes.reason })}
        </p>
      )}
      <p className="small">
        {value.source}, {words('designs.observed')} <DayText day={value.observedOn} />
      </p>
      <p className="small quiet">
        {words('designs.enteredBy', { name: value.by.name })} <TimeText at={value.at} look="short" />
      </p>
    </>
  )
}
