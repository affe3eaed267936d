import type { BenchQueue, BenchTask } from '@curebook/contract/bench'
import type { Ovens } from '@curebook/contract/loads'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { addressOf, labPath } from '#lib/api-client.ts'
import type { KeptAnswer } from '#lib/tablet/tablet-worker.ts'
import { bySoonest, testPlace } from './bench-groups.ts'
import { rackReadings } from './reading-slots.ts'

/** So many specimens are held for work without a network; a day of one person has fewer. Our own choice, no source. */
const mostTests = 60

export type WorkToKeep = { readonly pages: readonly string[]; readonly answers: readonly KeptAnswer[] }

/** The specimens that are held, most urgent first: each once, whatever waits of it. */
export function testsToKeep(tasks: readonly BenchTask[]): readonly BenchTask[] {
  const soonest = new Map<string, BenchTask>()
  for (const task of tasks.toSorted(bySoonest)) if (!soonest.has(task.testId)) soonest.set(task.testId, task)
  return [...soonest.values()].slice(0, mostTests)
}

/** Where the record of a test comes from, and what tells that it moved on. */
export function answerOfTest(labId: string, { testId, stepKey, act }: BenchTask): KeptAnswer {
  return { path: labPath(labId, 'tests', testId), state: `${stepKey}/${act}` }
}

/** The first specimen of each rack: its method says which reading the rack is opened with. */
export function firstOfRacks(tasks: readonly BenchTask[]): readonly BenchTask[] {
  const racks = new Map<string, BenchTask>()
  for (const task of tasks.toSorted(bySoonest)) {
    const key = [task.methodKey, task.stepKey, task.designId].join(' ')
    if (task.act === 'reading' && task.form !== 'batch' && !racks.has(key)) racks.set(key, task)
  }
  return [...racks.values()]
}

/** Where the rows of a rack come from; undefined where the step is not read as a rack. */
export function answerOfRack(
  labId: string,
  { methodKey, stepKey, designId }: BenchTask,
  steps: readonly StepDeclaration[],
  state: string,
): KeptAnswer | undefined {
  const step = steps.find(({ key }) => key === stepKey)
  const [first] = step === undefined ? [] : rackReadings(step)
  if (first === undefined) return undefined
  const path = addressOf(labPath(labId, 'bench', 'rack'), { methodKey, stepKey, readingKey: first.key, designId })
  return { path, state }
}

/** The logs that stand beside the loads of ovens and baths. */
export function answersOfLogs(labId: string, { instruments }: Pick<Ovens, 'instruments'>, state: string) {
  return instruments.map(({ id }): KeptAnswer => ({ path: labPath(labId, 'instruments', id, 'conditions'), state }))
}

/** What the bench of one person is drawn from, beside the specimens themselves. */
export function benchToKeep(lab: { readonly id: string; readonly short: string }, queue: BenchQueue): WorkToKeep {
  const state = queue.tasks.map(({ testId, stepKey, act }) => `${testId}/${stepKey}/${act}`).join(' ')
  const shown = digest(state)
  const tests = testsToKeep(queue.tasks)
  const place = (screen: string) => `/l/${lab.short}/${screen}`
  return {
    pages: [
      ...['bench', 'bench/rack', 'bench/steps', 'ovens'].map(place),
      ...tests.map(({ testId }) => testPlace(lab.short, testId)),
    ],
    answers: [
      { path: '/api/session', state: '' },
      { path: labPath(lab.id), state: '' },
      ...(['mine', 'all'] as const).map((whose) => ({
        path: addressOf(labPath(lab.id, 'bench', 'queue'), { whose }),
        state: shown,
      })),
      { path: labPath(lab.id, 'loads'), state: shown },
      { path: labPath(lab.id, 'notices'), state: shown },
      { path: labPath(lab.id, 'device', 'people'), state: '' },
      ...tests.map((task) => answerOfTest(lab.id, task)),
    ],
  }
}

/** Short and good enough to tell that a list has changed (FNV-1a); nothing rests on it. */
export function digest(text: string): string {
  let hash = 0x811c9dc5
  for (let at = 0; at < text.length; at += 1) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193)
  return (hash >>> 0).toString(16)
}
