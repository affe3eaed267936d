import type { BenchTask } from '@curebook/contract/bench'
import { urgencyOf } from '@curebook/trade/procedure/urgency'
import { rowOfCode } from './rack-order.ts'

/** The tests that an act may be confirmed for at this time: whatever waits only for its window stays out. */
export function dueNow(tasks: readonly BenchTask[], now: number): ReadonlySet<string> {
  const at = new Date(now).toISOString()
  return new Set(
    tasks.filter((task) => urgencyOf(task.opensAt, task.closesAt, at) !== 'opens-later').map(({ testId }) => testId),
  )
}

/** Codes typed or scanned one after another, parted by spaces or commas: which specimens they are, and which are unknown here. */
export function readCodes(
  tasks: readonly BenchTask[],
  typed: string,
): { readonly found: readonly BenchTask[]; readonly unknown: readonly string[] } {
  const codes = typed.split(/[\s,;]+/).filter((code) => code !== '')
  const read = codes.map((code) => ({ code, task: rowOfCode(tasks, code) }))
  return {
    found: read.flatMap(({ task }) => task ?? []),
    unknown: read.filter(({ task }) => task === undefined).map(({ code }) => code),
  }
}
