'use client'

import type { TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useEffect, useRef, useState, type ReactNode } from 'react'
import { Button } from '#components/button.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { StickyActionBar } from '#components/sticky-action-bar.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'
import { EventTimeField } from './event-time-field.tsx'
import { instrumentsOfStep } from './instrument-choice.ts'
import { InstrumentField } from './instrument-field.tsx'
import { MachineState } from './machine-state.tsx'
import { useInstrument } from './remembered-instrument.ts'
import { useActs, useOutcomes } from './use-acts.ts'
import { useEventTime } from './use-event-time.ts'
import { useSending } from './use-sending.ts'
import { savingOfActs } from './waiting-acts.ts'
import styles from './bench.module.css'

/** The start or the end of a step, confirmed for one test. */
export function ActWork({
  view,
  step,
  act,
  undo,
}: {
  view: TestView
  step: StepDeclaration
  act: 'start' | 'end'
  /** Takes back the reading before it. */
  undo?: ReactNode
}) {
  const words = useWords()
  const time = useEventTime()
  const confirm = useActs()
  const { fitting, needed } = instrumentsOfStep(step, view.instruments)
  const { instrument, choose } = useInstrument(step.equipment.join('-'), fitting)
  const sending = useSending(time, confirm)
  const [missing, setMissing] = useState(false)
  const main = useRef<HTMLButtonElement>(null)
  useEffect(() => {
    // After a reading was stored by Enter, Enter goes on with the act that follows; arriving here, nothing is pressed by chance.
    if (document.activeElement === null || document.activeElement === document.body) main.current?.focus()
  }, [])
  const outcomes = useOutcomes()(confirm.data?.rows ?? [])
  const refused = outcomes.find(({ outcome }) => outcome === 'refused')
  const errors = fieldErrors(confirm.error)
  const label = step.eventLabels?.[act] ?? words(`bench.act.${act}`)
  return (
    <div className={styles.work} style={{ minHeight: 'min(20rem, 40dvh)' }}>
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
      <StickyActionBar
        state={
          <>
            <SaveState saving={savingOfActs(savingOf(confirm), outcomes)} />
            {undo}
          </>
        }
      >
        <Button
          ref={main}
          tone="main"
          size="bench"
          busy={confirm.isPending}
          onClick={() => {
            const taken = sending.take()
            setMissing(true)
            if (taken === undefined || (needed && fitting.length > 0 && instrument === undefined)) return
            confirm.mutate(
              {
                stepKey: step.key,
                kind: act,
                rows: [{ id: sending.id('act'), testId: view.id }],
                instrumentId: instrument?.id ?? null,
                time: taken.time,
                labels: {
                  [view.id]: words('bench.actEntryLabel', {
                    act: label,
                    name: words('bench.name', { label: view.item.label, code: view.item.code }),
                  }),
                },
              },
              // Answered, done or refused: pressed again it is another act, at its own time.
              { onSuccess: sending.renew },
            )
          }}
        >
          {words('bench.confirmOne', { act: label })}
        </Button>
      </StickyActionBar>
    </div>
  )
}
