'use client'

import type { BenchTask } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useQuery } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { StickyActionBar } from '#components/sticky-action-bar.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { ActsTable } from './acts-table.tsx'
import { bySoonest } from './bench-groups.ts'
import { benchQueries, useConfirmActs } from './bench.queries.ts'
import { CodeField } from './code-field.tsx'
import { EventTimeField } from './event-time-field.tsx'
import { instrumentsOfStep } from './instrument-choice.ts'
import { InstrumentField } from './instrument-field.tsx'
import { MachineState } from './machine-state.tsx'
import { useInstrument } from './remembered-instrument.ts'
import { StepFacts } from './step-facts.tsx'
import { dueNow, readCodes } from './step-selection.ts'
import { useEventTime } from './use-event-time.ts'
import styles from './bench.module.css'

export type Outcome = { readonly task: BenchTask; readonly done: boolean; readonly sentence: string | null }

/** Chosen specimens, one confirmation, one row each with what came of it. Those that failed stay chosen. */
export function ActsOfStep({
  tasks,
  mine,
  serverNow,
  stepKey,
  act,
}: {
  tasks: readonly BenchTask[]
  mine: ReadonlySet<string>
  serverNow: string
  stepKey: string
  act: 'start' | 'end'
}) {
  const words = useWords()
  const lab = useLaboratory()
  const time = useEventTime()
  const confirm = useConfirmActs(lab.id)
  const own = tasks.filter(({ testId }) => mine.has(testId))
  const due = () => dueNow(own.length > 0 ? own : tasks, Date.parse(serverNow))
  const [chosen, setChosen] = useState<ReadonlySet<string>>(due)
  const [outcomes, setOutcomes] = useState<readonly Outcome[]>([])
  const [codeError, setCodeError] = useState<string>()
  const [missing, setMissing] = useState<'instrument' | 'choice'>()
  // What was fetched earlier may know of none of them yet; the first that are known are chosen, later ones wait to be.
  const [seen, setSeen] = useState(tasks[0])
  if (seen === undefined && tasks[0] !== undefined) {
    setSeen(tasks[0])
    setChosen(due())
  }
  // Always the same one: its step and instruments stand for all, and stay in hand while the list grows shorter.
  const last = seen ?? tasks[0]
  const ids = useRef(new Map<string, string>())
  const first = useQuery(benchQueries.test(lab.id, last?.testId ?? ''))
  const step = (first.data?.method.steps as readonly StepDeclaration[] | undefined)?.find(({ key }) => key === stepKey)
  const { fitting, needed } =
    step === undefined ? { fitting: [], needed: false } : instrumentsOfStep(step, first.data?.instruments ?? [])
  const { instrument, choose } = useInstrument(step?.equipment.join('-') ?? 'none', fitting)
  const rows = tasks.toSorted(bySoonest)
  const ready = rows.filter(({ testId }) => chosen.has(testId))
  const errors = fieldErrors(confirm.error)

  if (last === undefined)
    return <EmptyState title={words('bench.acts.none')}>{words('bench.acts.noneMore')}</EmptyState>
  const { actLabel } = last
  const count = words('bench.count', { n: ready.length, form: last.form })

  function scan(typed: string) {
    const { found, unknown } = readCodes(rows, typed)
    setChosen(new Set([...chosen, ...found.map(({ testId }) => testId)]))
    setCodeError(unknown.length === 0 ? undefined : words('bench.acts.unknown', { codes: unknown.join(', ') }))
  }
  function send() {
    const taken = time.take()
    const lacking =
      ready.length === 0
        ? 'choice'
        : needed && fitting.length > 0 && instrument === undefined
          ? 'instrument'
          : undefined
    setMissing(lacking)
    if (taken === undefined || lacking !== undefined) return
    const sent = ready.map((task) => ({ task, id: idOf(task.testId) }))
    confirm.mutate(
      {
        stepKey,
        kind: act,
        rows: sent.map(({ task, id }) => ({ id, testId: task.testId })),
        instrumentId: instrument?.id ?? null,
        time: taken.time,
      },
      {
        onSuccess: ({ rows: answered }) => {
          const made = sent.map(({ task }): Outcome => {
            const answer = answered.find(({ id }) => id === task.testId)
            return { task, done: answer?.outcome === 'done', sentence: answer?.sentence ?? null }
          })
          for (const { task, done } of made) if (!done) ids.current.delete(task.testId)
          setOutcomes((before) => [
            ...made,
            ...before.filter(({ task }) => !made.some((other) => other.task.testId === task.testId)),
          ])
          setChosen(new Set(made.filter(({ done }) => !done).map(({ task }) => task.testId)))
          time.reset()
        },
      },
    )
  }
  /** Sent again after a lost answer it is the same act; after a refusal it is a new one. */
  function idOf(testId: string): string {
    const id = ids.current.get(testId) ?? newId()
    ids.current.set(testId, id)
    return id
  }

  return (
    <>
      {outcomes.length > 0 && <Outcomes outcomes={outcomes} actLabel={actLabel} />}
      {tasks.length === 0 ? (
        <EmptyState title={words('bench.acts.allDone')}>{words('bench.acts.noneMore')}</EmptyState>
      ) : (
        <>
          <Loaded query={first} what={words('bench.theseSpecimens')} height="10rem">
            {(view) => step && <StepFacts step={step} parameters={view.edition.parameters} />}
          </Loaded>
          <CodeField
            label={words('bench.acts.code')}
            hint={words('bench.acts.codeHint')}
            button={words('bench.acts.add')}
            error={codeError}
            onCode={scan}
          />
          <ActsTable rows={rows} chosen={chosen} onChange={setChosen} />
          {lab.may('step-event:create') && (
            <div className={styles.work} style={{ minHeight: 0 }}>
              <InstrumentField
                fitting={fitting}
                chosen={instrument}
                needed={needed}
                error={
                  errors.instrumentId ?? (missing === 'instrument' ? words('bench.instrument.missing') : undefined)
                }
                onChoose={choose}
              />
              <MachineState instrument={instrument} />
              <EventTimeField time={time} />
              {missing === 'choice' && ready.length === 0 && <p role="alert">{words('bench.acts.noChoice')}</p>}
              <StickyActionBar state={<SaveState saving={savingOf(confirm)} />}>
                <Button tone="main" size="bench" busy={confirm.isPending || step === undefined} onClick={send}>
                  {words('bench.acts.confirm', { act: actLabel, count })}
                </Button>
              </StickyActionBar>
            </div>
          )}
        </>
      )}
    </>
  )
}

function Outcomes({ outcomes, actLabel }: { outcomes: readonly Outcome[]; actLabel: string }) {
  const words = useWords()
  const refused = outcomes.filter(({ done }) => !done)
  return (
    <section
      className={refused.length > 0 ? styles.conflict : 'panel'}
      role={refused.length > 0 ? 'alert' : 'status'}
      aria-label={words('bench.acts.outcomes')}
    >
      <p className="strong">
        {words('bench.acts.summary', {
          act: actLabel,
          done: outcomes.length - refused.length,
          refused: refused.length,
        })}
      </p>
      <ul className={styles.recorded}>
        {outcomes.map(({ task, done, sentence }) => (
          <li key={task.testId}>
            <span>{words('bench.name', { label: task.label, code: task.code })}</span>
            <span>{done ? words('bench.acts.confirmed') : (sentence ?? words('bench.acts.refused'))}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}
