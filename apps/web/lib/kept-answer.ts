import { useSyncExternalStore } from 'react'
import { isAwayStatus } from './server-away.ts'

/** When the oldest of the kept answers on screen was kept, ms; undefined while the server answers itself. */
let since: number | undefined
const listeners = new Set<() => void>()

/** Notes where an answer came from: from this device, when it was kept there, or from the server, whatever it said. */
export function noteAnswer({ keptAt, status }: { readonly keptAt: number | undefined; readonly status: number }): void {
  // What stands between answers for a server that is not there.
  if (keptAt === undefined && isAwayStatus(status)) return
  const next = keptAt === undefined ? undefined : Math.min(keptAt, since ?? keptAt)
  if (next === since) return
  since = next
  for (const listener of listeners) listener()
}

export function keptSince(): number | undefined {
  return since
}

/** Calls back whenever `keptSince` changes. @returns the way to stop */
export function onKept(listener: () => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

export function useKeptSince(): number | undefined {
  return useSyncExternalStore(onKept, keptSince, () => undefined)
}

/** When an answer was kept on the device, ms by its clock; undefined where the server gave it just now. */
export function keptAtOf(headers: Headers): number | undefined {
  const told = headers.get('x-kept-at')
  return told === null ? undefined : Number(told)
}

/**
 * The laboratory's clock went on since an answer was kept: its `now` is moved by the time that passed on this device, so
 * that windows are judged by now and not by then.
 */
export function movedOn<Answer>(answer: Answer, keptAt: number, deviceNow: number = Date.now()): Answer {
  if (typeof answer !== 'object' || answer === null || !('now' in answer) || typeof answer.now !== 'string')
    return answer
  const then = Date.parse(answer.now)
  // A device clock that was set back meanwhile tells nothing of how long it was.
  return Number.isNaN(then)
    ? answer
    : { ...answer, now: new Date(then + Math.max(0, deviceNow - keptAt)).toISOString() }
}
