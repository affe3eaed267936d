'use client'

import type { Rack, TestView } from '@curebook/contract/bench'
import type { ReadingDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useCallback, useState } from 'react'
import { Button } from '#components/button.tsx'
import { SaveState } from '#components/save-state.tsx'
import { SpecimenMark, type SpecimenForm } from '#components/specimen-mark.tsx'
import { WindowBar } from '#components/window-bar.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { CodeField } from './code-field.tsx'
import { CorrectionForm } from './correction-form.tsx'
import { EventTimeField } from './event-time-field.tsx'
import { ablest, contextOf, instrumentsOfReading } from './instrument-choice.ts'
import { InstrumentField } from './instrument-field.tsx'
import { useLaboratoryNow } from './laboratory-clock.ts'
import { rowOfCode } from './rack-order.ts'
import { RackQuestions } from './rack-questions.tsx'
import { RackTable } from './rack-table.tsx'
import { ReadingField } from './reading-field.tsx'
import { savingOfEntries } from './reading-entry.ts'
import { useInstrument } from './remembered-instrument.ts'
import { StepFacts } from './step-facts.tsx'
import { AsTyped, RunningDifference } from './target-line.tsx'
import { useEscape } from './use-escape.ts'
import { useEventTime } from './use-event-time.ts'
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
  const [onBalance, setOnBalance] = useState<string>()
  const [last, setLast] = useState<string>()
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
  const nameOf = ({ label, code }: { label: string; code: string }) => words('bench.name', { label, code })
  const own = readings.entries.filter(({ testId }) => rows.some((other) => other.testId === testId))
  const saving = <SaveState saving={savingOfEntries(own, readings.online)} />
  const done = rows.filter(isDone).length

  function take(typed: string) {
    const found = typed.trim() === '' ? expected : rowOfCode(rows, typed)
    const next = expected === undefined ? '' : nameOf(expected)
    if (found === undefined)
      return setError(
        words(typed.trim() === '' ? 'bench.rack.allDone' : 'bench.rack.unknown', {
          typed: typed.trim(),
          expected: next,
          any: next === '' ? 'no' : 'yes',
        }),
      )
    // A second reading behind one that is on its way would only meet it there.
    if (found.entry !== undefined && found.entry.state !== 'stored')
      return setError(words('bench.rack.onItsWay', { name: nameOf(found), typed: found.entry.typed }))
    setError(undefined)
    setOnBalance(found.testId)
  }
  function away(testId: string) {
    setLast(testId)
    setOnBalance(undefined)
  }

  if (!lab.may('reading:create'))
    return <RackTable {...{ view, rows, declaration, slot, readings, expected }} onTake={undefined} />
  return (
    <>
      <section className="stack" aria-label={words('bench.rack.weighing')}>
        <StepFacts step={step} parameters={view.edition.parameters} />
        <p role="status">
          {words('bench.rack.progress', { done, of: rows.length })}{' '}
          {expected !== undefined && <strong>{words('bench.rack.expected', { name: nameOf(expected) })}</strong>}
        </p>
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
            {saving}
          </div>
        ) : (
          <div className="stack">
            <Specimen row={row} form={view.item.form as SpecimenForm} />
            {standing !== undefined ? (
              <CorrectionForm
                key={row.testId}
                name={nameOf(row)}
                slot={slot}
                reading={standing}
                readings={readings}
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
                onStore={async (typed, confirmedOdd) => {
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
                    time: taken.time,
                    instrumentId: instrument?.id ?? null,
                    confirmedOdd,
                    label,
                  })
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

function Specimen({ row, form }: { row: WeighedRow; form: SpecimenForm }) {
  const words = useWords()
  const now = useLaboratoryNow()
  return (
    <div className={styles.specimen}>
      <SpecimenMark form={form} code={row.code} formWord={words(`bench.form.${form}`)} size="bench" />
      <span className={styles.place}>{row.label}</span>
      {(row.opensAt !== null || row.closesAt !== null) && (
        <WindowBar
          now={now}
          opensAt={row.opensAt}
          closesAt={row.closesAt}
          name={words('bench.rack.windowOf', { label: row.label })}
        />
      )}
    </div>
  )
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
