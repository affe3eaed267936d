'use client'

import type { TestView } from '@curebook/contract/bench'
import { runPassed } from '@curebook/trade/procedure/run-length'
import { Button } from '#components/button.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { formatSpan } from '#lib/laboratory-time.ts'
import { useWords } from '#lib/words.ts'
import { useLaboratoryNow } from './laboratory-clock.ts'
import { StepFacts } from './step-facts.tsx'
import type { RunningStep } from './running-step.ts'
import { useAwake } from './use-awake.ts'
import styles from './run-clock.module.css'

/**
 * The clock of a run, from the time at which its start was told to have happened: the same after a reload and on another
 * tablet. It counts and stops nothing; the machine's own timer or counter is what counts.
 */
export function RunClock({
  running,
  view,
  onNote,
}: {
  running: RunningStep
  view: TestView
  /** Goes to what may be noted at the step; absent while it is on the page already. */
  onNote: (() => void) | undefined
}) {
  const words = useWords()
  const { step, start, run } = running
  const passed = runPassed(run, useLaboratoryNow(250) - Date.parse(start.eventAt))
  const over = passed.left === 0
  useAwake(!over)
  return (
    <section className={`panel ${styles.run}`} aria-label={words('bench.run.title', { step: step.title })}>
      <h2>{words('bench.run.title', { step: step.title })}</h2>
      <p className={`reading ${styles.clock}`} role="timer" aria-live="off">
        {formatSpan((over ? passed.over : passed.left) * 1000)}
      </p>
      <p className={styles.under}>
        <StatusMark status={over ? 'done' : 'running'}>
          {words(over ? 'bench.run.over' : 'bench.run.left', { total: formatSpan(run.seconds * 1000) })}
        </StatusMark>
        {run.cycles !== null && passed.cycles !== null && (
          <span className="reading">
            {words('bench.run.cycles', {
              cycles: passed.cycles,
              total: run.cycles.total,
              perMinute: run.cycles.perMinute,
            })}
          </span>
        )}
        <span>
          {words('bench.run.since')} <TimeText at={start.eventAt} look="clock" />
          {start.parts.map(({ kind, lot }) => `, ${words(`bench.part.${kind}`, { lot })}`)}
        </span>
      </p>
      <p className="quiet">{words('bench.run.about')}</p>
      {onNote !== undefined && step.readings.length > 0 && (
        <Button onClick={onNote}>{words('bench.noteMoreNamed', { step: step.title })}</Button>
      )}
      <span role="status" className="sr-only">
        {over && words('bench.run.told', { step: step.title })}
      </span>
      <details>
        <summary>{words('bench.run.how')}</summary>
        <StepFacts step={step} parameters={view.edition.parameters} />
      </details>
    </section>
  )
}
