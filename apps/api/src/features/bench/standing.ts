import type { Evaluation, MethodDeclaration, ObservedReading } from '@curebook/trade/procedure/declaration'
import { actsOf, progressOf, type Progress } from '@curebook/trade/procedure/progress'
import { dueOf, judgeWindows, type DueAct, type JudgedWindow } from '@curebook/trade/procedure/windows'
import { withWaiting } from './waiting-results.ts'
import { endedStates, recordedEvents, takenReadings, type TestRecord } from './test-record.ts'

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
  const ended = endedStates.includes(record.state)
  return {
    state: ended ? record.state : stateOf(record, progress),
    progress,
    due: ended ? null : dueOf(method, record.parameters, events, readings),
    windows: judgeWindows(method, record.parameters, actsOf(method, events, readings), at),
    evaluation: withWaiting(
      method,
      record,
      method.evaluate(observedReadings(record), {
        parameters: record.parameters,
        factors: record.machine?.factors ?? [],
        inputs: record.inputs,
      }),
    ),
  }
}

function stateOf(record: TestRecord, progress: Progress): string {
  if (progress.done) return 'done'
  return record.events.length > 0 || record.slots.length > 0 ? 'in-work' : 'waiting'
}

/** The readings that a formula sees: those that stand and count. */
export function observedReadings(record: Pick<TestRecord, 'slots'>): readonly ObservedReading[] {
  return record.slots
    .filter(({ counts }) => counts)
    .map(({ readingId, step, key, repeat, value, unit, choice, typed }) => ({
      id: readingId,
      step,
      key,
      repeat,
      value: value ?? choice ?? typed,
      ...(unit === null ? {} : { unit }),
    }))
}
