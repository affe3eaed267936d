'use client'

import type { TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { ButtonLink } from '#components/button.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { ActWork } from './act-work.tsx'
import { testPlace } from './bench-groups.ts'
import { asSent } from './event-time.ts'
import { EventTimeField } from './event-time-field.tsx'
import { ablest, contextOf, instrumentsOfReading } from './instrument-choice.ts'
import { InstrumentField } from './instrument-field.tsx'
import { ReadingField } from './reading-field.tsx'
import { savingOfEntries } from './reading-entry.ts'
import { partsOfStep, placeOfSlot, readingsIn, slotKey, type ReadingSlot } from './reading-slots.ts'
import { SaveState } from '#components/save-state.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useInstrument } from './remembered-instrument.ts'
import { StepFacts } from './step-facts.tsx'
import { TargetLine } from './target-line.tsx'
import { useSource } from './use-source.tsx'
import { UndoButton } from './undo-button.tsx'
import { useWaitingActs } from './use-waiting-acts.ts'
import { useEventTime } from './use-event-time.ts'
import { entryFor, type Readings } from './use-readings.ts'
import { WaitsBehind } from './waits-behind.tsx'

/** Whether a slot has a reading, or one on its way that was not refused. */
export function isTaken(slot: ReadingSlot, view: TestView, readings: Readings): boolean {
  const { current } = readingsIn(slot, view.readings)
  if (current !== undefined) return true
  return entryFor(readings.entries, view.id, placeOfSlot(slot), undefined) !== undefined
}

/**
 * One step of one test, drawn from its declaration alone: how, cautions, then its acts in order: start, readings one at a
 * time, end. What need not be read is folded below.
 */
export function StepWork({
  view,
  step,
  readings,
  name,
}: {
  view: TestView
  step: StepDeclaration
  readings: Readings
  name: string
}) {
  const words = useWords()
  const { required, optional } = partsOfStep(step)
  const here = useWaitingActs().filter((act) => act.testId === view.id && act.stepKey === step.key)
  const waiting = here.filter(({ refused }) => !refused)
  const begun = new Set(
    [...view.events.filter(({ stepKey }) => stepKey === step.key), ...waiting].map(({ kind }) => kind),
  )
  const missing = required.filter((slot) => !isTaken(slot, view, readings))
  const open = optional.filter((slot) => !isTaken(slot, view, readings))
  const lock = view.locks.find(({ stepKey }) => stepKey === step.key)
  const act =
    step.events.includes('start') && !begun.has('start')
      ? 'start'
      : missing.length > 0
        ? 'reading'
        : step.events.includes('end') && !begun.has('end')
          ? 'end'
          : null
  const [slot] = missing
  return (
    <section className="stack" aria-label={step.title}>
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
      <BatchFirst view={view} />
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
          undo={
            <UndoButton entries={readings.entries.filter(({ testId }) => testId === view.id)} readings={readings} />
          }
        />
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
function BatchFirst({ view: { batchOpen, relatedTestId } }: { view: TestView }) {
  const words = useWords()
  const lab = useLaboratory()
  if (!batchOpen || relatedTestId === null) return null
  return (
    <p className="caution row" role="note">
      {words('bench.batchOpen')}
      <ButtonLink href={testPlace(lab.short, relatedTestId)} prefetch={false}>
        {words('bench.toBatch')}
      </ButtonLink>
    </p>
  )
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
              <UndoButton entries={own} readings={readings} />
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
            label: words('bench.entryLabel', { label: `${step.title}, ${declaration.label}`, name, typed }),
          })
        }}
      />
      {source.field}
      <EventTimeField time={time} />
      <InstrumentField fitting={fitting} chosen={instrument} needed={false} onChoose={choose} />
    </div>
  )
}
