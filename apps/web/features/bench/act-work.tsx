'use client'

import type { TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useEffect, useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { StickyActionBar } from '#components/sticky-action-bar.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { EventTimeField } from './event-time-field.tsx'
import { instrumentsOfStep } from './instrument-choice.ts'
import { InstrumentField } from './instrument-field.tsx'
import { MachineState } from './machine-state.tsx'
import { useConfirmActs } from './bench.queries.ts'
import { useInstrument } from './remembered-instrument.ts'
import { useEventTime } from './use-event-time.ts'
import styles from './bench.module.css'

/** The start or the end of a step, confirmed for one test. */
export function ActWork({ view, step, act }: { view: TestView; step: StepDeclaration; act: 'start' | 'end' }) {
  const words = useWords()
  const lab = useLaboratory()
  const time = useEventTime()
  const confirm = useConfirmActs(lab.id)
  const { fitting, needed } = instrumentsOfStep(step, view.instruments)
  const { instrument, choose } = useInstrument(step.equipment.join('-'), fitting)
  const [id] = useState(newId)
  const [missing, setMissing] = useState(false)
  const work = useRef<HTMLDivElement>(null)
  useEffect(() => {
    // After a reading was stored by Enter, Enter goes on with the act that follows; arriving here, nothing is pressed by chance.
    if (document.activeElement === null || document.activeElement === document.body)
      work.current?.querySelector<HTMLElement>('button')?.focus()
  }, [])
  const refused = confirm.data?.rows.find(({ outcome }) => outcome === 'refused')
  const errors = fieldErrors(confirm.error)
  const label = step.eventLabels?.[act] ?? words(`bench.act.${act}`)
  return (
    <div className={styles.work} ref={work} style={{ minHeight: 'min(20rem, 40dvh)' }}>
      <InstrumentField
        fitting={fitting}
        chosen={instrument}
        needed={needed}
        error={
          errors.instrumentId ??
          (missing && needed && instrument === undefined ? words('bench.instrument.missing') : undefined)
        }
        onChoose={choose}
      />
      <MachineState instrument={instrument} />
      <EventTimeField time={time} />
      {refused !== undefined && (
        <p className="caution" role="alert">
          {refused.sentence}
        </p>
      )}
      <StickyActionBar state={<SaveState saving={savingOf(confirm)} />}>
        <Button
          tone="main"
          size="bench"
          busy={confirm.isPending}
          onClick={() => {
            const taken = time.take()
            setMissing(true)
            if (taken === undefined || (needed && fitting.length > 0 && instrument === undefined)) return
            confirm.mutate({
              stepKey: step.key,
              kind: act,
              rows: [{ id, testId: view.id }],
              instrumentId: instrument?.id ?? null,
              time: taken.time,
            })
          }}
        >
          {words('bench.confirmOne', { act: label })}
        </Button>
      </StickyActionBar>
    </div>
  )
}
