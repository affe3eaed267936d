'use client'

import type { Rack, TestView } from '@curebook/contract/bench'
import type { ReadingDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useCallback, useState } from 'react'
import { Button } from '#components/button.tsx'
import { Checkbox } from '#components/choices.tsx'
import { SaveState } from '#components/save-state.tsx'
import type { SpecimenForm } from '#components/specimen-mark.tsx'
import { WindowBar } from '#components/window-bar.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { tellSignal } from '#lib/tablet/tell-signal.ts'
import { tabletSettings, useTabletSettings } from '#lib/tablet/use-tablet-settings.ts'
import { useWords } from '#lib/words.ts'
import { BalanceButton } from './balance-button.tsx'
import { CodeField, FoundSign, type CodeOutcome } from './code-field.tsx'
import { CorrectionForm } from './correction-form.tsx'
import { asSent } from './event-time.ts'
import { EventTimeField } from './event-time-field.tsx'
import { ablest, contextOf, instrumentsOfReading } from './instrument-choice.ts'
import { InstrumentField } from './instrument-field.tsx'
import { useLaboratoryNow } from './laboratory-clock.ts'
import { meaningOf, nextInOrder, rowOfCode } from './rack-order.ts'
import { RackDisplay, useSayStored, type StoredWeight } from './rack-display.tsx'
import { RackQuestions } from './rack-questions.tsx'
import { RackTable } from './rack-table.tsx'
import { ReadingField } from './reading-field.tsx'
import { savingOfEntries } from './reading-entry.ts'
import { useInstrument } from './remembered-instrument.ts'
import { StepFacts } from './step-facts.tsx'
import { AsTyped, RunningDifference } from './target-line.tsx'
import { UndoButton } from './undo-button.tsx'
import { useEscape } from './use-escape.ts'
import { useKeyBurst } from './use-key-burst.ts'
import { useEventTime } from './use-event-time.ts'
import { usePressedWeight } from './use-sent-weight.ts'
import { useRack, type WeighedRow } from './use-rack.ts'
import styles from './bench.module.css'

/**
 * Many specimens in any order, by keyboard alone: code, Enter, weight, Enter. The next one expected is offered: Enter on
 * the empty field takes it.
 */
export function RackWeighing({
  view,
  step,
  declaration,
  rack,
}: {
  view: TestView
  step: StepDeclaration
  declaration: ReadingDeclaration
  rack: Rack
}) {
  const words = useWords()
  const lab = useLaboratory()
  const time = useEventTime()
  const { rows, readings, isDone, expectedAfter } = useRack(rack, step.key, declaration)
  const [first] = useState(() => (tabletSettings().inOrder ? expectedAfter(undefined)?.testId : undefined))
  const [onBalance, setOnBalance] = useState(first)
  const [last, setLast] = useState<string>()
  const [stored, setStored] = useState<StoredWeight>()
  const sayStored = useSayStored()
  const [settings, changeSettings] = useTabletSettings()
  useEscape(
    onBalance !== undefined,
    useCallback(() => setOnBalance(undefined), []),
  )
  const [error, setError] = useState<string>()
  const fitting = instrumentsOfReading(declaration, view.instruments)
  const { instrument, choose } = useInstrument(declaration.instrument ?? 'none', fitting)
  const slot = { stepKey: step.key, declaration, repeat: 1 }
  const expected = expectedAfter(last)
  const row = rows.find(({ testId }) => testId === onBalance)
  const standing = row?.entry?.answer?.reading ?? row?.reading ?? undefined
  // Offered by a list that was older than my own weighing of it: the next one is on the balance, and nothing is to correct.
  if (row !== undefined && isOutdatedOffer(row, { first, last, me: lab.me.membershipId }))
    setOnBalance(expectedAfter(row.testId)?.testId)
  const nameOf = ({ label, code }: { label: string; code: string }) => words('bench.name', { label, code })
  const own = readings.entries.filter(({ testId }) => rows.some((other) => other.testId === testId))
  const saving = (
    <>
      <SaveState saving={savingOfEntries(own, readings.online)} />
      <UndoButton entries={own} readings={readings} onUndone={undone} />
    </>
  )
  const done = rows.filter(isDone).length
  // Where a weight is awaited its field hears of the burst itself.
  useKeyBurst(undefined, row === undefined ? takeBurst : undefined)
  usePressedWeight(instrument, row === undefined ? takeBurst : undefined)

  function take(typed: string): CodeOutcome {
    const found = typed.trim() === '' ? expected : rowOfCode(rows, typed)
    const next = expected === undefined ? '' : nameOf(expected)
    if (found === undefined && meaningOf(rows, typed, declaration.unit) === 'weight')
      return wrong(words('bench.rack.weightFirst', { typed: typed.trim() }))
    if (found === undefined)
      return wrong(
        words(typed.trim() === '' ? 'bench.rack.allDone' : 'bench.rack.unknown', {
          typed: typed.trim(),
          expected: next,
          any: next === '' ? 'no' : 'yes',
        }),
      )
    // A second reading behind one that is on its way would only meet it there.
    if (found.entry !== undefined && found.entry.state !== 'stored')
      return wrong(words('bench.rack.onItsWay', { name: nameOf(found), typed: found.entry.typed }))
    setError(undefined)
    setOnBalance(found.testId)
    return { found: words('bench.code.found', { name: nameOf(found) }) }
  }
  /** A scanner's code where a weight is awaited takes that specimen; a number that is also a code is asked back. */
  function codeInField(typed: string): CodeOutcome | undefined {
    const meaning = meaningOf(rows, typed, declaration.unit)
    if (meaning === 'code') return take(typed)
    return meaning === 'both' ? { wrong: words('bench.rack.codeOrWeight', { typed: typed.trim() }) } : undefined
  }
  function takeBurst(burst: string) {
    tellSignal('found' in take(burst) ? 'found' : 'wrong')
  }
  function wrong(sentence: string): CodeOutcome {
    setError(sentence)
    return { wrong: sentence }
  }
  /** In the order of the list the next one is on the balance by now; else its code is awaited. */
  function away(testId: string) {
    setLast(testId)
    setOnBalance(settings.inOrder ? nextInOrder(rows, isDone, testId)?.testId : undefined)
  }
  function undone({ testId }: { readonly testId: string }) {
    setStored(undefined)
    setOnBalance(testId)
  }

  if (!lab.may('reading:create'))
    return <RackTable {...{ view, rows, declaration, slot, readings, expected }} onTake={undefined} />
  return (
    <>
      <section className="stack" aria-label={words('bench.rack.weighing')}>
        <StepFacts step={step} parameters={view.edition.parameters} />
        <p role="status">
          {words('bench.rack.progress', { done, of: rows.length })} {/* On the balance already, it is named there. */}
          {expected !== undefined && expected.testId !== onBalance && (
            <strong>{words('bench.rack.expected', { name: nameOf(expected) })}</strong>
          )}
        </p>
        <RackDisplay now={row} form={view.item.form as SpecimenForm} stored={stored} unit={declaration.unit} />
        <Checkbox
          name="inOrder"
          label={words('bench.rack.inOrder')}
          checked={settings.inOrder}
          onChange={(event) => {
            changeSettings({ inOrder: event.target.checked })
            if (event.target.checked && row === undefined) setOnBalance(expected?.testId)
          }}
        />
        {row === undefined ? (
          <div className={styles.work} style={{ minHeight: 0 }}>
            <CodeField
              key={last ?? 'first'}
              focused
              label={words('bench.rack.code')}
              hint={
                expected === undefined
                  ? words('bench.rack.codeDone')
                  : words('bench.rack.codeHint', { name: nameOf(expected) })
              }
              error={error}
              button={words('bench.rack.take')}
              onCode={take}
            />
            {instrument !== undefined && <BalanceButton instrument={instrument} told={undefined} />}
            {saving}
          </div>
        ) : (
          <div className="stack">
            <WindowOf row={row} />
            <FoundSign text={words('bench.code.found', { name: nameOf(row) })} />
            {standing !== undefined ? (
              <CorrectionForm
                key={row.testId}
                name={nameOf(row)}
                slot={slot}
                reading={standing}
                readings={readings}
                onCode={codeInField}
                onClose={() => setOnBalance(undefined)}
                onDone={() => away(row.testId)}
              />
            ) : (
              <ReadingField
                key={row.testId}
                slot={slot}
                of={nameOf(row)}
                context={contextOf(declaration, instrument ?? ablest(fitting, declaration.unit), {
                  targets: {},
                  parameters: view.edition.parameters,
                })}
                draftAs={`${row.testId}/${step.key}/${declaration.key}/1`}
                button={words('bench.storeAndNext')}
                state={saving}
                more={
                  <Button size="bench" onClick={() => setOnBalance(undefined)}>
                    {words('bench.rack.other')}
                  </Button>
                }
                under={(typed) => <Earlier row={row} typed={typed} unit={declaration.unit} />}
                instrument={instrument}
                onCode={codeInField}
                onStore={async (typed, confirmedOdd, sent) => {
                  const taken = time.take()
                  if (taken === undefined) throw new Error(words('bench.when.incomplete'))
                  const label = words('bench.entryLabel', {
                    label: `${step.title}, ${declaration.label}`,
                    name: nameOf(row),
                    typed,
                  })
                  const place = { testId: row.testId, stepKey: step.key, key: declaration.key, repeat: 1 }
                  await readings.post({
                    ...place,
                    typed,
                    time: asSent(taken.time, sent),
                    instrumentId: instrument?.id ?? null,
                    confirmedOdd,
                    label,
                  })
                  const weight = { label: row.label, typed }
                  setStored(weight)
                  sayStored(weight)
                  away(row.testId)
                }}
              />
            )}
          </div>
        )}
      </section>
      <RackQuestions {...{ rows, slot, readings, nameOf }} />
      <EventTimeField time={time} lasting />
      <InstrumentField fitting={fitting} chosen={instrument} needed={false} onChoose={choose} />
      <RackTable
        {...{ view, rows, declaration, slot, readings, expected }}
        onTake={(testId) => take(rows.find((other) => other.testId === testId)?.code ?? '')}
      />
    </>
  )
}

function WindowOf({ row: { label, opensAt, closesAt } }: { row: WeighedRow }) {
  const words = useWords()
  const now = useLaboratoryNow()
  if (opensAt === null && closesAt === null) return null
  return (
    <div style={{ maxWidth: '30rem' }}>
      <WindowBar now={now} opensAt={opensAt} closesAt={closesAt} name={words('bench.rack.windowOf', { label })} />
    </div>
  )
}

/** What this screen opened with, once it turns out that it was weighed before the screen was opened, by whoever has it open. */
function isOutdatedOffer(
  { testId, entry, reading }: WeighedRow,
  { first, last, me }: { first: string | undefined; last: string | undefined; me: string },
): boolean {
  return testId === first && last === undefined && entry === undefined && reading?.by.membershipId === me
}

/** What it weighed before, and the loss or gain as one types. */
function Earlier({ row, typed, unit }: { row: WeighedRow; typed: string; unit: string | undefined }) {
  if (row.earlier.length === 0) return null
  return (
    <dl className="facts">
      {row.earlier.map(({ label, typed: before }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd className={styles.value}>
            <AsTyped typed={before} unit={unit} />
          </dd>
        </div>
      ))}
      <RunningDifference before={row.earlier.at(-1)?.typed ?? ''} typed={typed} unit={unit} />
    </dl>
  )
}
