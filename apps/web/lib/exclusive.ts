import { newId } from './new-id.ts'

/**
 * Runs `work` in one tab of the browser at a time; the next tab takes over when this one closes or `signal` ends it.
 * Without Web Locks (a plain-http address) every tab runs it: the server tells a second sending by its id.
 */
export async function exclusively(name: string, signal: AbortSignal, work: () => Promise<void>): Promise<void> {
  const locks = (navigator as { locks?: LockManager }).locks
  if (locks === undefined) return work()
  await locks.request(name, { signal }, work).catch((cause: unknown) => {
    if (!signal.aborted) throw cause
  })
}

/** Longer than another tab needs to see what was written to the browser's store. Our own choice, no source. */
const SEEN_MS = 60

/**
 * Runs `work` in turn with the other tabs of this browser. Without Web Locks, of tabs that want it at the same moment the one
 * that came last runs it, and the others do not: undefined.
 */
export async function inOneTab<T>(
  name: string,
  storage: { readonly getItem: (key: string) => string | null; readonly setItem: (key: string, text: string) => void },
  work: () => T,
): Promise<T | undefined> {
  const locks = (navigator as { locks?: LockManager }).locks
  if (locks !== undefined) {
    let done: T | undefined
    await locks.request(name, {}, async () => void (done = work()))
    return done
  }
  const turn = newId()
  storage.setItem(`${name}-turn`, turn)
  await new Promise((resolve) => setTimeout(resolve, SEEN_MS))
  return storage.getItem(`${name}-turn`) === turn ? work() : undefined
}

/** Resolves when the signal ends. */
export function ended(signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    if (signal.aborted) resolve()
    else signal.addEventListener('abort', () => resolve(), { once: true })
  })
}
