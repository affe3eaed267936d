'use client'

import type { TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useEffect, useRef } from 'react'
import { Button, ButtonLink } from '#components/button.tsx'
import { StickyActionBar } from '#components/sticky-action-bar.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { ActWork, type WayBefore } from './act-work.tsx'
import { testPlace } from './bench-groups.ts'
import { asSent } from './event-time.ts'
import { EventTimeField } from './event-time-field.tsx'
import { ablest, contextOf, instrumentsOfReading } from './instrument-choice.ts'
import { InstrumentField } from './instrument-field.tsx'
import { ReadingField } from './reading-field.tsx'
import { savingOfEntries } from './reading-entry.ts'
import { partsOfStep, placeOfSlot, saidOf, slotKey, type ReadingSlot } from './reading-slots.ts'
import { SaveState } from '#components/save-state.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useInstrument } from './remembered-instrument.ts'
import { StepFacts } from './step-facts.tsx'
import { begunHere, isTaken, lockHere, stepHere } from './step-here.ts'
import { TargetLine } from './target-line.tsx'
import { useSource } from './use-source.tsx'
import { UndoButton } from './undo-button.tsx'
import { useWaitingActs } from './use-waiting-acts.ts'
import { useEventTime } from './use-event-time.ts'
import type { Readings } from './use-readings.ts'
import { WaitsBehind } from './waits-behind.tsx'

/**
 * One step of one test, drawn from its declaration alone: how, cautions, then its acts in order: start, readings one at a
 * time, end. What need not be read is folded below.
 */
export function StepWork({
  view,
  step,
  readings,
  name,
  onStep,
}: {
  view: TestView
  step: StepDeclaration
  readings: Readings
  name: string
  onStep: (stepKey: string) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const steps = view.method.steps as readonly StepDeclaration[]
  const { required, optional } = partsOfStep(step)
  const acts = useWaitingActs()
  const of = { view, entries: readings.entries, acts }
  const here = acts.filter((act) => act.testId === view.id && act.stepKey === step.key)
  const waiting = here.filter(({ refused }) => !refused)
  const begun = begunHere(step, of)
  // Where nothing must be read, what may be is asked for one at a time all the same.
  const asksNothing = required.length === 0 && step.events.length === 0
  const untaken = (slots: readonly ReadingSlot[]) => slots.filter((slot) => !isTaken(slot, of))
  const missing = untaken(asksNothing ? optional : required)
  const open = untaken(asksNothing ? missing.slice(1) : optional)
  const lock = lockHere(step, of)
  const act =
    step.events.includes('start') && !begun.has('start')
      ? 'start'
      : missing.length > 0
        ? 'reading'
        : step.events.includes('end') && !begun.has('end')
          ? 'end'
          : null
  const [slot] = missing
  const section = useRef<HTMLElement>(null)
  useEffect(() => {
    // Another step is read from its top, cautions and all, wherever the page stood; a field comes into view by its focus.
    if (section.current !== null && section.current.getBoundingClientRect().top < 0)
      section.current.scrollIntoView({ block: 'start' })
  }, [])
  // Without a network the record cannot say what comes next, and with one it says so by itself.
  const offered = readings.online ? steps.find(({ key }) => key === view.currentStep) : stepHere(of)
  const next = offered?.key === step.key ? undefined : offered
  return (
    <section className="stack" aria-label={step.title} ref={section}>
      <h2>{step.title}</h2>
      <StepFacts step={step} parameters={view.edition.parameters} />
      {here.map(
        ({ id, kind, refused, reason }) =>
          refused && (
            <p key={id} className="caution" role="alert">
              {words('bench.actRefused', {
                act: step.eventLabels?.[kind] ?? words(`bench.act.${kind}`),
                reason: reason ?? '',
              })}
            </p>
          ),
      )}
      {waiting.map(({ id, kind, at, behind }) => (
        <p key={id} className="row" role="status">
          <StatusMark status="queued">
            {words('bench.actWaits', { act: step.eventLabels?.[kind] ?? words(`bench.act.${kind}`) })}
          </StatusMark>
          <TimeText at={at} look="clock" />
          <WaitsBehind label={behind} />
        </p>
      ))}
      {lock !== undefined && (
        <p className="caution" role="alert">
          {lock.sentence}
        </p>
      )}
      <BatchFirst view={view} linked={act !== 'start'} />
      {lock === undefined && act === 'reading' && slot !== undefined && (
        <OneReading
          key={slotKey(placeOfSlot(slot))}
          {...{ view, step, slot, readings, name }}
          last={missing.length === 1}
        />
      )}
      {lock === undefined && (act === 'start' || act === 'end') && (
        <ActWork
          key={act}
          view={view}
          step={step}
          act={act}
          first={act === 'start' ? toBatch(view, words('bench.toBatch'), lab.short) : undefined}
          undo={
            <UndoButton
              entries={readings.entries.filter(({ testId }) => testId === view.id)}
              readings={readings}
              steps={steps}
            />
          }
        />
      )}
      {lock === undefined && act === null && !here.some(({ refused }) => refused) && next !== undefined && (
        <StickyActionBar>
          <Button tone="main" size="bench" onClick={() => onStep(next.key)}>
            {words('bench.goOn', { step: next.title })}
          </Button>
        </StickyActionBar>
      )}
      {open.length > 0 && (
        // Open while it runs and after: tacky, or what is seen, is noted at that moment; it is what one came for.
        <details open={act === 'end' || act === null}>
          <summary>{words('bench.optional', { count: open.length })}</summary>
          <div className="stack">
            {open.map((other) => (
              <OneReading
                key={slotKey(placeOfSlot(other))}
                {...{ view, step, slot: other, readings, name }}
                focused={false}
                last
              />
            ))}
          </div>
        </details>
      )}
    </section>
  )
}

/** Nearest to what is done next: a specimen is made of its batch. */
function BatchFirst({ view, linked }: { view: TestView; linked: boolean }) {
  const words = useWords()
  const lab = useLaboratory()
  if (!view.batchOpen || view.relatedTestId === null) return null
  return (
    <p className="caution row" role="note">
      {words('bench.batchOpen')}
      {linked && (
        <ButtonLink href={testPlace(lab.short, view.relatedTestId)} prefetch={false}>
          {words('bench.toBatch')}
        </ButtonLink>
      )}
    </p>
  )
}

/** What is done before a specimen is made; what was weighed on paper is confirmed beside it all the same. */
function toBatch({ batchOpen, relatedTestId }: TestView, label: string, short: string): WayBefore | undefined {
  return batchOpen && relatedTestId !== null ? { href: testPlace(short, relatedTestId), label } : undefined
}

function OneReading({
  view,
  step,
  slot,
  readings,
  name,
  focused = true,
  last,
}: {
  view: TestView
  step: StepDeclaration
  slot: ReadingSlot
  readings: Readings
  name: string
  focused?: boolean
  last: boolean
}) {
  const words = useWords()
  const time = useEventTime()
  const { declaration } = slot
  const fitting = instrumentsOfReading(declaration, view.instruments)
  const { instrument, choose } = useInstrument(declaration.instrument ?? 'none', fitting)
  const context = contextOf(declaration, instrument ?? ablest(fitting, declaration.unit), {
    targets: view.targets,
    parameters: view.edition.parameters,
  })
  const source = useSource(view.sources, declaration)
  const own = readings.entries.filter(({ testId }) => testId === view.id)
  return (
    <div className="stack">
      <ReadingField
        slot={slot}
        context={context}
        of={name}
        draftAs={`${view.id}/${slotKey(placeOfSlot(slot))}`}
        focused={focused}
        button={words(last ? 'bench.store' : 'bench.storeAndNext')}
        state={
          focused ? (
            <>
              <SaveState saving={savingOfEntries(own, readings.online)} />
              <UndoButton entries={own} readings={readings} steps={view.method.steps as readonly StepDeclaration[]} />
            </>
          ) : undefined
        }
        under={(typed) => <TargetLine slot={slot} context={context} typed={typed} view={view} />}
        ask={source.ask}
        instrument={instrument}
        onStore={async (typed, confirmedOdd, sent) => {
          const taken = time.take()
          if (taken === undefined) throw new Error(words('bench.when.incomplete'))
          await readings.post({
            testId: view.id,
            ...placeOfSlot(slot),
            typed,
            time: asSent(taken.time, sent),
            instrumentId: instrument?.id ?? null,
            confirmedOdd,
            drawnFromId: source.chosenId,
            label: words('bench.entryLabel', {
              label: `${step.title}, ${declaration.label}`,
              name,
              typed: saidOf(slot, typed),
            }),
          })
        }}
      />
      {source.field}
      <EventTimeField time={time} />
      <InstrumentField fitting={fitting} chosen={instrument} needed={false} onChoose={choose} />
    </div>
  )
}
