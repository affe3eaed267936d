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

/** Resolves when the signal ends. */
export function ended(signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    if (signal.aborted) resolve()
    else signal.addEventListener('abort', () => resolve(), { once: true })
  })
}
