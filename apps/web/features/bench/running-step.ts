import type { StepEvent, TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { runLengthOf, type RunLength } from '@curebook/trade/procedure/run-length'

export type RunningStep = { readonly step: StepDeclaration; readonly start: StepEvent; readonly run: RunLength }

/** A clock that nobody looks at is of no use: this long after the end of a run it is gone. Common practice, no source. */
const shownAfterEndMs = 60 * 60_000

/** The run of a test that was started last, while nothing was done after it. `now` by the laboratory's clock, in ms. */
export function runningStep(
  { method, edition, events, readings }: Pick<TestView, 'method' | 'edition' | 'events' | 'readings'>,
  now: number,
): RunningStep | undefined {
  const steps = method.steps as readonly StepDeclaration[]
  const start = events.at(-1)
  if (start?.kind !== 'start') return undefined
  const at = steps.findIndex(({ key }) => key === start.stepKey)
  const step = steps[at]
  const run = step && runLengthOf(step, edition.parameters)
  if (!step || !run || now > Date.parse(start.eventAt) + run.seconds * 1000 + shownAfterEndMs) return undefined
  const later = new Set(steps.slice(at + 1).map(({ key }) => key))
  if (readings.some(({ stepKey, eventAt }) => later.has(stepKey) && eventAt > start.eventAt)) return undefined
  return { step, start, run }
}
