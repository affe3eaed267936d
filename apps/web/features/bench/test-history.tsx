'use client'

import type { StepEvent, TestView, WindowState } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { progressOf, type StepProgress } from '@curebook/trade/procedure/progress'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { WindowBar } from '#components/window-bar.tsx'
import { ObservedList } from '#features/observations/observed-list.tsx'
import { formatSpan } from '#lib/laboratory-time.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { ActTimeDialog } from './act-time-dialog.tsx'
import { useLaboratoryNow } from './laboratory-clock.ts'
import { RecordedReading } from './recorded-reading.tsx'
import { placeOfSlot, slotKey, slotsOfStep } from './reading-slots.ts'
import type { Readings } from './use-readings.ts'
import styles from './bench.module.css'

const states = { waiting: 'planned', open: 'running', done: 'done' } as const satisfies Record<
  StepProgress['state'],
  Status
>

/** Every step with what was done, by whom and when, its windows, and its readings with what they took the place of. */
export function TestHistory({
  view,
  readings,
  name,
  mayWork,
  chosen,
  onChoose,
}: {
  view: TestView
  readings: Readings
  name: string
  mayWork: boolean
  chosen: string | undefined
  onChoose: (stepKey: string) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const steps = view.method.steps as readonly StepDeclaration[]
  const events = view.events.flatMap(({ stepKey, kind, eventAt }) =>
    kind === 'void' ? [] : [{ step: stepKey, act: kind, at: eventAt }],
  )
  const standing = view.readings.filter(({ superseded }) => !superseded)
  const taken = standing.map(({ stepKey, key, repeat, eventAt }) => ({ step: stepKey, key, repeat, at: eventAt }))
  const progress = progressOf({ steps }, events, taken)
  const mayCorrect = lab.may('reading:correct') && mayWork
  const [moving, setMoving] = useState<Moving>()
  return (
    <section className="stack" aria-labelledby="history">
      <h2 id="history">{words('bench.history')}</h2>
      <ol className={styles.steps}>
        {steps.map((step, index) => {
          const state = progress.steps[index]?.state ?? 'waiting'
          const lock = view.locks.find(({ stepKey }) => stepKey === step.key)
          const asksNothing = step.events.length === 0 && step.readings.every(({ optional }) => optional)
          const untouched = asksNothing && !taken.some((reading) => reading.step === step.key)
          return (
            <li
              key={step.key}
              className={`${styles.step} ${step.key === view.currentStep ? styles.current : state === 'done' && !untouched ? styles.finished : ''}`}
            >
              <div className="row">
                <h3>{step.title}</h3>
                {untouched ? (
                  <StatusMark status="any-time">{words('bench.ifWanted')}</StatusMark>
                ) : (
                  <StatusMark status={states[state]} />
                )}
                {mayWork &&
                  step.key !== chosen &&
                  (state !== 'done' || step.readings.some(({ optional }) => optional)) &&
                  lock === undefined && (
                    <Button
                      tone="quiet"
                      onClick={() => onChoose(step.key)}
                      aria-label={words(
                        state === 'done' && !untouched ? 'bench.noteMoreNamed' : 'bench.openStepNamed',
                        {
                          step: step.title,
                        },
                      )}
                    >
                      {words(state === 'done' && !untouched ? 'bench.noteMore' : 'bench.openStep')}
                    </Button>
                  )}
              </div>
              {lock !== undefined && <p className="quiet">{lock.sentence}</p>}
              <Events
                step={step}
                events={view.events.filter(({ stepKey }) => stepKey === step.key)}
                onCorrect={mayWork && lab.may('step-event:correct') ? setMoving : undefined}
              />
              <ObservedList view={view} stepKey={step.key} name={name} />
              {view.windows
                .filter(({ stepKey }) => stepKey === step.key)
                .map((window) => (
                  <Window key={window.key} window={window} />
                ))}
              <ul className={styles.recorded}>
                {slotsOfStep(step).map((slot) => (
                  <RecordedReading
                    sources={view.sources}
                    key={slotKey(placeOfSlot(slot))}
                    slot={slot}
                    name={name}
                    testId={view.id}
                    all={view.readings}
                    readings={readings}
                    mayCorrect={mayCorrect}
                  />
                ))}
              </ul>
            </li>
          )
        })}
      </ol>
      {moving !== undefined && (
        <ActTimeDialog
          testId={view.id}
          event={moving.event}
          label={moving.label}
          onClose={() => setMoving(undefined)}
        />
      )}
    </section>
  )
}

type Moving = { readonly event: StepEvent; readonly label: string }

function Events({
  step,
  events,
  onCorrect,
}: {
  step: StepDeclaration
  events: readonly StepEvent[]
  onCorrect: ((moving: Moving) => void) | undefined
}) {
  const words = useWords()
  const labelOf = ({ kind }: StepEvent) =>
    kind === 'void' ? words('bench.act.void') : (step.eventLabels?.[kind] ?? words(`bench.act.${kind}`))
  if (events.length === 0) return null
  return (
    <ul className={styles.recorded}>
      {events.map((event) => (
        <li key={event.id}>
          <span>{labelOf(event)}</span>
          <TimeText at={event.eventAt} look="short" />
          <span className="quiet">
            {event.by.name}
            {Math.abs(Date.parse(event.receivedAt) - Date.parse(event.eventAt)) >= 60_000 && (
              <>
                , {words('bench.entered')} <TimeText at={event.receivedAt} look="short" />
              </>
            )}
            {event.transcribed && `, ${words('bench.fromPaper')}`}
            {event.note !== null && `, ${event.note}`}
            {event.parts.map(({ kind, lot }) => `, ${words(`bench.part.${kind}`, { lot })}`)}
            {event.corrects !== null && (
              <>
                {' '}
                <s>
                  <TimeText at={event.corrects.at} look="short" />
                </s>{' '}
                {words('bench.actTime.inPlace', { name: event.corrects.name, reason: event.corrects.reason })}
              </>
            )}
          </span>
          {onCorrect !== undefined && event.kind !== 'void' && (
            <Button
              size="small"
              onClick={() => onCorrect({ event, label: labelOf(event) })}
              aria-label={words('bench.actTime.named', { label: labelOf(event) })}
            >
              {words('bench.actTime.short')}
            </Button>
          )}
        </li>
      ))}
    </ul>
  )
}

/** A running window as its bar; one that is judged with its word and how far inside or outside it was. */
function Window({ window }: { window: WindowState }) {
  const words = useWords()
  const now = useLaboratoryNow()
  const { state, opensAt, closesAt, label, marginSeconds, finding } = window
  const running =
    (state === 'open' || state === 'pending' || state === 'missed') && (opensAt !== null || closesAt !== null)
  if (state === 'pending' && !running) return null
  const span = marginSeconds === null ? '' : formatSpan(marginSeconds * 1000)
  return (
    <div className="row">
      <span>{label}</span>
      {running ? (
        <WindowBar now={now} opensAt={opensAt} closesAt={closesAt} name={label} />
      ) : (
        <>
          <StatusMark status={state === 'met' ? 'met' : state === 'early' ? 'early' : 'late'} />
          {span !== '' && state !== 'met' && (
            <span>{words(`bench.window.${state === 'early' ? 'early' : 'late'}`, { span })}</span>
          )}
          {finding && state === 'late' && <span className="quiet">{words('bench.window.finding')}</span>}
        </>
      )}
    </div>
  )
}
