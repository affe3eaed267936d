import type { TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { partsOfStep, placeOfSlot, readingsIn, type ReadingSlot } from './reading-slots.ts'
import type { Entry } from './reading-entry.ts'
import { entryFor } from './use-readings.ts'
import type { WaitingAct } from './waiting-acts.ts'

/** A test as the server told of it last, and what stands on this device beside it. */
export type Here = {
  readonly view: Pick<TestView, 'id' | 'currentStep' | 'readings' | 'events' | 'locks'> & {
    readonly method: Pick<TestView['method'], 'steps'>
  }
  readonly entries: readonly Entry[]
  readonly acts: readonly WaitingAct[]
}

/** What fills a slot: a reading, one on its way, or one that was refused and stands there to be put right. */
function filledBy(slot: ReadingSlot, { view, entries }: Pick<Here, 'view' | 'entries'>) {
  if (readingsIn(slot, view.readings).current !== undefined) return 'stored'
  return entryFor(entries, view.id, placeOfSlot(slot), undefined)?.state
}
export function isTaken(slot: ReadingSlot, here: Pick<Here, 'view' | 'entries'>): boolean {
  return filledBy(slot, here) !== undefined
}

/** Acts of a step that are in the record, or wait here and were not refused. */
export function begunHere(step: StepDeclaration, { view, acts }: Pick<Here, 'view' | 'acts'>): ReadonlySet<string> {
  const waiting = acts.filter(({ testId, refused }) => testId === view.id && !refused)
  return new Set([...view.events, ...waiting].filter(({ stepKey }) => stepKey === step.key).map(({ kind }) => kind))
}

function isDone(step: StepDeclaration, here: Here): boolean {
  const begun = begunHere(step, here)
  return (
    partsOfStep(step).required.every((slot) => ![undefined, 'refused'].includes(filledBy(slot, here))) &&
    step.events.every((event) => begun.has(event))
  )
}

/** What comes next, what waits on this device counted as done: without a network the server cannot say it. */
export function stepHere(here: Here): StepDeclaration | undefined {
  const steps = here.view.method.steps as readonly StepDeclaration[]
  const from = steps.findIndex(({ key }) => key === here.view.currentStep)
  return from === -1 ? undefined : steps.slice(from).find((step) => !isDone(step, here))
}

/** Why a step may not begin; what must come before it may stand on this device by now. */
export function lockHere(step: StepDeclaration, here: Here): TestView['locks'][number] | undefined {
  const steps = here.view.method.steps as readonly StepDeclaration[]
  const missing = (step.needs ?? []).some((key) => steps.some((other) => other.key === key && !isDone(other, here)))
  return missing ? here.view.locks.find(({ stepKey }) => stepKey === step.key) : undefined
}
