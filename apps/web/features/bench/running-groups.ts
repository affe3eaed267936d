import type { BenchTask } from '@curebook/contract/bench'
import { bySoonest } from './bench-groups.ts'

export type RunningGroup = {
  readonly key: string
  readonly first: BenchTask
  readonly tasks: readonly BenchTask[]
  readonly opensAt: string | null
  readonly closesAt: string | null
}

/** Windows that run: those with an end or a beginning still to come, or an end that has passed; what comes next stands first. */
export function runningWindows(tasks: readonly BenchTask[], now: number): readonly RunningGroup[] {
  const groups = new Map<string, BenchTask[]>()
  for (const task of tasks) {
    if (task.closesAt === null && (task.opensAt === null || Date.parse(task.opensAt) <= now)) continue
    const key = [task.methodKey, task.stepKey, task.act, task.designId, task.opensAt, task.closesAt].join(' ')
    groups.set(key, [...(groups.get(key) ?? []), task])
  }
  return [...groups]
    .map(([key, own]) => {
      const ordered = own.toSorted(bySoonest)
      const first = ordered[0] as BenchTask
      return { key, first, tasks: ordered, opensAt: first.opensAt, closesAt: first.closesAt }
    })
    .toSorted((a, b) => nextMark(a, now) - nextMark(b, now))
}

/** The moment that comes next: the opening of a window that has not opened, else its end. */
function nextMark({ opensAt, closesAt }: Pick<RunningGroup, 'opensAt' | 'closesAt'>, now: number): number {
  const opens = opensAt === null ? undefined : Date.parse(opensAt)
  if (opens !== undefined && opens > now) return opens
  return closesAt === null ? (opens ?? now) : Date.parse(closesAt)
}
