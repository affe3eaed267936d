import type { Evaluation, MethodDeclaration, ObservedReading } from '@curebook/trade/procedure/declaration'
import { actsOf, progressOf, type Progress } from '@curebook/trade/procedure/progress'
import { dueOf, judgeWindows, type DueAct, type JudgedWindow } from '@curebook/trade/procedure/windows'
import { withHeld, withWaiting } from './waiting-results.ts'
import { endedStates, recordedEvents, takenReadings, type Slot, type TestRecord } from './test-record.ts'

/** Where a test stands, computed from its record alone: the same on posting, on reading and on rebuilding projections. */
export type Standing = {
  readonly state: string
  readonly progress: Progress
  readonly due: DueAct | null
  readonly windows: readonly JudgedWindow[]
  readonly evaluation: Evaluation
}

/** @param at the laboratory's present time, ISO 8601, by which undone acts are judged */
export function standingOf(method: MethodDeclaration, record: TestRecord, at: string): Standing {
  const events = recordedEvents(record)
  const readings = takenReadings(record)
  const progress = progressOf(method, events, readings)
  const evaluate = (slots: TestRecord['slots']) =>
    method.evaluate([...observed(slots), ...weighedWithBatch(method, record)], {
      parameters: record.parameters,
      factors: record.machine?.factors ?? [],
      inputs: record.inputs,
    })
  const counted = evaluate(record.slots.filter(({ counts }) => counts))
  const ended = endedStates.includes(record.state)
  return {
    state: ended ? record.state : stateOf(record, progress),
    progress,
    due: ended ? null : dueOf(method, record.parameters, events, readings),
    windows: judgeWindows(method, record.parameters, actsOf(method, events, readings), at),
    evaluation: withWaiting(method, record, withHeld(method, record.slots, counted, evaluate)),
  }
}

function stateOf(record: TestRecord, progress: Progress): string {
  if (progress.done) return 'done'
  return record.events.length > 0 || record.slots.length > 0 ? 'in-work' : 'waiting'
}

/** The readings that a formula sees: those that stand and count. */
export function observedReadings(record: Pick<TestRecord, 'slots'>): readonly ObservedReading[] {
  return observed(record.slots.filter(({ counts }) => counts))
}

/** What the formula takes of the batch, as readings of the step that declares it; a reading of its own goes before. */
function weighedWithBatch(
  { batchReadings }: MethodDeclaration,
  { slots, batchWeighings }: TestRecord,
): readonly ObservedReading[] {
  if (!batchReadings) return []
  const { step, keys } = batchReadings
  const isOwn = (key: string) => slots.some((slot) => slot.step === step && slot.key === key)
  const taken = batchWeighings.filter(({ key, counts }) => counts && keys.includes(key) && !isOwn(key))
  return observed(taken.map((weighing) => ({ ...weighing, step, repeat: 1 })))
}

type Observed = Pick<Slot, 'step' | 'key' | 'repeat' | 'readingId' | 'typed' | 'value' | 'unit' | 'choice'>

function observed(slots: readonly Observed[]): readonly ObservedReading[] {
  return slots.map(({ readingId, step, key, repeat, value, unit, choice, typed }) => ({
    id: readingId,
    step,
    key,
    repeat,
    value: value ?? choice ?? typed,
    ...(unit === null ? {} : { unit }),
  }))
}
