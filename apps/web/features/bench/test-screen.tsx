'use client'

import type { TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useQuery } from '@tanstack/react-query'
import { ButtonLink } from '#components/button.tsx'
import { lazyPart } from '#components/lazy-part.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { SaveState } from '#components/save-state.tsx'
import { SpecimenMark, type SpecimenForm } from '#components/specimen-mark.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { ObservePart } from '#features/observations/observe-part.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { BenchFrame } from './bench-frame.tsx'
import { sheetPlace } from './bench-groups.ts'
import { benchQueries } from './bench.queries.ts'
import { BatchParts } from './batch-parts.tsx'
import { useLaboratoryNow } from './laboratory-clock.ts'
import { MissedWindows } from './missed-windows.tsx'
import { savingOfEntries } from './reading-entry.ts'
import { runningStep } from './running-step.ts'
import { StepWork } from './step-work.tsx'
import { TestEnd } from './test-end.tsx'
import { TestHistory } from './test-history.tsx'
import { TestResults } from './test-results.tsx'
import { withUndone, undoneIds } from './undo.ts'
import { UndoButton } from './undo-button.tsx'
import { useReadings } from './use-readings.ts'
import styles from './bench.module.css'

const RunClock = lazyPart(() => import('./run-clock.tsx').then(({ RunClock: clock }) => clock))

/** One specimen's, or one batch's, whole life: what is due now on top, then everything that was done. */
export function TestScreen({ testId }: { testId: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(benchQueries.test(lab.id, testId))
  const view = query.data
  const name = view === undefined ? undefined : words('bench.name', { label: view.item.label, code: view.item.code })
  return (
    <BenchFrame
      heading={
        <PageHeading
          screen={words('bench.title')}
          thing={name}
          under={view && `${view.method.name}, ${view.design.name}, ${view.design.projectName}`}
          failed={query.isError && view === undefined}
          actions={
            view !== undefined &&
            view.currentStep !== null && (
              <ButtonLink
                href={sheetPlace(lab.short, {
                  designId: view.design.id,
                  methodKey: view.method.key,
                  stepKey: view.currentStep,
                  codes: [view.item.code],
                })}
                prefetch={false}
              >
                {words('bench.sheet')}
              </ButtonLink>
            )
          }
        />
      }
    >
      <Loaded query={query} what={words('bench.thisTest')} height="32rem">
        {(loaded) => <TestBody view={loaded} name={name ?? ''} />}
      </Loaded>
    </BenchFrame>
  )
}

function TestBody({ view: stored, name }: { view: TestView; name: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const readings = useReadings()
  const undone = undoneIds(readings.entries)
  // What was taken back here is so on screen before the server has heard of it.
  const taken = { by: lab.me, at: stored.now, reason: words('bench.correct.reason.mistyped') }
  const view = { ...stored, readings: [...withUndone(stored.readings, undone, taken)] }
  const [chosen, choose] = useSearchParam('step')
  const steps = view.method.steps as readonly StepDeclaration[]
  const step = steps.find(({ key }) => key === (chosen === '' ? view.currentStep : chosen))
  const ended = view.voided !== null || view.state === 'void' || view.state === 'replaced'
  const mayWork = lab.may('reading:create') && !ended
  const own = readings.entries.filter(({ testId }) => testId === view.id)
  const now = useLaboratoryNow(60_000)
  const running = ended ? undefined : runningStep(view, now)
  return (
    <>
      <Who view={view} />
      <MissedWindows view={view} />
      {mayWork && view.notAuthorised !== null && (
        <p className="caution" role="note">
          {words('bench.notAuthorised', { sentence: view.notAuthorised })}
        </p>
      )}
      {ended && <Voided view={view} />}
      {!ended && step === undefined && (
        <p className="row">
          <StatusMark status="done">{words('bench.allDone')}</StatusMark>
          {view.item.form !== 'batch' && (
            <>
              <SaveState saving={savingOfEntries(own, readings.online)} />
              <UndoButton entries={own} readings={readings} />
            </>
          )}
        </p>
      )}
      {running !== undefined && (
        <RunClock
          running={running}
          view={view}
          onNote={running.step.key === step?.key ? undefined : () => choose(running.step.key, { push: true })}
        />
      )}
      {mayWork && step !== undefined && <StepWork key={step.key} {...{ view, step, readings, name }} />}
      {lab.may('observation:create') && (
        <ObservePart
          view={view}
          stepKey={step?.key ?? view.events.at(-1)?.stepKey ?? steps[0]?.key ?? ''}
          name={name}
        />
      )}
      <TestResults view={view} />
      {view.item.form === 'batch' && <BatchParts view={view} readings={readings} />}
      <TestHistory
        view={view}
        readings={readings}
        name={name}
        mayWork={mayWork}
        chosen={step?.key}
        onChoose={(key) => choose(key === view.currentStep ? '' : key, { push: true })}
      />
      <TestEnd view={view} name={name} />
    </>
  )
}

function Who({ view }: { view: TestView }) {
  const words = useWords()
  const { item } = view
  return (
    <div className={styles.specimen}>
      <SpecimenMark
        form={item.form as SpecimenForm}
        code={item.code}
        formWord={words(`bench.form.${item.form}`)}
        voided={view.voided !== null}
        size="bench"
      />
      <span className={styles.place}>{item.label}</span>
      {view.emulsionPercent !== null && <span>{words('bench.mixOf', { percent: view.emulsionPercent })}</span>}
      {view.purpose === 'spare' && <span>{words('bench.spare')}</span>}
      <span className="quiet">
        {view.assignee === null ? words('bench.unassigned') : words('bench.assignedTo', { name: view.assignee.name })}
      </span>
    </div>
  )
}

function Voided({ view }: { view: TestView }) {
  const words = useWords()
  return (
    <p className="row">
      <StatusMark status="void">
        {words(view.state === 'replaced' ? 'bench.void.replaced' : 'bench.void.state')}
      </StatusMark>
      {view.voided !== null && words('bench.void.by', { reason: view.voided.reason, name: view.voided.by.name })}
    </p>
  )
}
