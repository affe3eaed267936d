'use client'

import type { BenchTask } from '@curebook/contract/bench'
import type { EventTime } from '@curebook/contract/common'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button, ButtonLink } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { StickyActionBar } from '#components/sticky-action-bar.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { createActSending } from './act-sending.ts'
import { ActsTable } from './acts-table.tsx'
import { bySoonest } from './bench-groups.ts'
import { benchQueries } from './bench.queries.ts'
import { CodeField, type CodeOutcome } from './code-field.tsx'
import { EventTimeField } from './event-time-field.tsx'
import { instrumentsOfStep } from './instrument-choice.ts'
import { InstrumentField } from './instrument-field.tsx'
import { MachineState } from './machine-state.tsx'
import { useInstrument } from './remembered-instrument.ts'
import { StepFacts } from './step-facts.tsx'
import { dueNow, readCodes } from './step-selection.ts'
import type { ActRow } from './send-acts.ts'
import { WaitsBehind } from './waits-behind.tsx'
import { useActs, useOutcomes } from './use-acts.ts'
import { useWaitingActs } from './use-waiting-acts.ts'
import { useEventTime } from './use-event-time.ts'
import { savingOfActs } from './waiting-acts.ts'
import styles from './bench.module.css'

export type Outcome = {
  readonly task: BenchTask
  readonly actId: string
  readonly outcome: ActRow['outcome']
  readonly sentence: string | null
}

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
  const confirm = useActs()
  const own = tasks.filter(({ testId }) => mine.has(testId))
  const due = () => dueNow(own.length > 0 ? own : tasks, Date.parse(serverNow))
  const [chosen, setChosen] = useState<ReadonlySet<string>>(due)
  const [told, setTold] = useState<readonly Outcome[]>([])
  const outcomes = useOutcomes()(told)
  const [missing, setMissing] = useState<'instrument' | 'choice'>()
  // What was fetched earlier may know of none of them yet; the first that are known are chosen, later ones wait to be.
  const [seen, setSeen] = useState(tasks[0])
  if (seen === undefined && tasks[0] !== undefined) {
    setSeen(tasks[0])
    setChosen(due())
  }
  // Always the same one: its step and instruments stand for all, and stay in hand while the list grows shorter.
  const last = seen ?? tasks[0]
  // Sent again after a lost answer it is the same act; after a refusal it is a new one.
  const [sending] = useState(() => createActSending<EventTime>(newId))
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

  function scan(typed: string): CodeOutcome {
    const { found, unknown } = readCodes(rows, typed)
    setChosen(new Set([...chosen, ...found.map(({ testId }) => testId)]))
    if (unknown.length > 0) return { wrong: words('bench.acts.unknown', { codes: unknown.join(', ') }) }
    if (found.length === 0) return { wrong: words('bench.code.empty') }
    const names = found.map(({ label, code }) => words('bench.name', { label, code })).join(', ')
    return { found: words('bench.code.found', { name: names }) }
  }
  async function send() {
    const taken = time.take()
    const lacking =
      ready.length === 0
        ? 'choice'
        : needed && fitting.length > 0 && instrument === undefined
          ? 'instrument'
          : undefined
    setMissing(lacking)
    if (taken === undefined || lacking !== undefined) return
    const labels = Object.fromEntries(
      ready.map(({ testId, label, code }) => [
        testId,
        words('bench.actEntryLabel', { act: actLabel, name: words('bench.name', { label, code }) }),
      ]),
    )
    for (const group of sending.groups(
      ready.map(({ testId }) => testId),
      JSON.stringify([time.choice, time.word, instrument?.id]),
      taken.time,
    )) {
      const testIds = group.rows.map(({ testId }) => testId)
      const body = { stepKey, kind: act, instrumentId: instrument?.id ?? null, time: group.taken, labels }
      const answer = await confirm.mutateAsync({ ...body, rows: [...group.rows] }).catch((error: unknown) => {
        sending.failed(testIds, error)
        return undefined
      })
      if (answer === undefined) return
      sending.answered(testIds)
      tell(
        ready.filter(({ testId }) => testIds.includes(testId)),
        answer.rows,
      )
    }
    time.reset()
  }
  function tell(sent: readonly BenchTask[], answered: readonly ActRow[]) {
    const made = sent.map((task): Outcome => {
      const answer = answered.find(({ id }) => id === task.testId)
      return {
        task,
        actId: answer?.actId ?? '',
        outcome: answer?.outcome ?? 'refused',
        sentence: answer?.sentence ?? null,
      }
    })
    const again = new Set(sent.map(({ testId }) => testId))
    const done = new Set(made.flatMap(({ task, outcome }) => (outcome === 'refused' ? [] : [task.testId])))
    setTold((before) => [...made, ...before.filter(({ task }) => !again.has(task.testId))])
    // Those that failed stay chosen, and those not sent yet.
    setChosen((before) => new Set([...before].filter((id) => !done.has(id))))
  }

  return (
    <>
      {outcomes.length > 0 && <Outcomes outcomes={outcomes} actLabel={actLabel} />}
      {tasks.length === 0 ? (
        <EmptyState
          title={words('bench.acts.allDone')}
          action={
            <p>
              <ButtonLink href={`/l/${lab.short}/bench`} tone="main" size="bench" prefetch={false}>
                {words('bench.back')}
              </ButtonLink>
            </p>
          }
        />
      ) : (
        <>
          <Loaded query={first} what={words('bench.theseSpecimens')} height="10rem">
            {(view) => step && <StepFacts step={step} parameters={view.edition.parameters} />}
          </Loaded>
          <CodeField
            label={words('bench.acts.code')}
            hint={words('bench.acts.codeHint')}
            button={words('bench.acts.add')}
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
              {missing === 'choice' && ready.length === 0 && (
                <p className="caution" role="alert">
                  {words('bench.acts.noChoice')}
                </p>
              )}
              <StickyActionBar state={<SaveState saving={savingOfActs(savingOf(confirm), outcomes)} />}>
                <Button
                  tone="main"
                  size="bench"
                  busy={confirm.isPending || step === undefined}
                  onClick={() => void send()}
                >
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
  const of = (wanted: Outcome['outcome']) => outcomes.filter(({ outcome }) => outcome === wanted)
  const refused = of('refused')
  const waiting = useWaitingActs()
  const behind = (actId: string) => waiting.find(({ id }) => id === actId)?.behind
  return (
    <section
      className={refused.length > 0 ? styles.conflict : 'panel'}
      role={refused.length > 0 ? 'alert' : 'status'}
      aria-label={words('bench.acts.outcomes')}
    >
      <p className="strong">
        {words('bench.acts.summary', {
          act: actLabel,
          done: of('done').length,
          kept: of('kept').length,
          refused: refused.length,
        })}
      </p>
      <ul className={styles.recorded}>
        {outcomes.map(({ task, actId, outcome, sentence }) => (
          <li key={task.testId}>
            <span>{words('bench.name', { label: task.label, code: task.code })}</span>
            <span>{sentence ?? words(`bench.acts.outcome.${outcome}`)}</span>
            {outcome === 'kept' && <WaitsBehind label={behind(actId)} />}
          </li>
        ))}
      </ul>
    </section>
  )
}
