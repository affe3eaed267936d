/**
 * Web Locks of one browser, as much of it as the pages use: one holder a name, the others wait in order. A tab that is closed
 * lets go of what it holds, though its code runs no further; `signal` is how this stand-in hears of that.
 */
export function createTabLocks(): LockManager {
  const queues = new Map<string, Promise<void>>()
  return {
    async request(name, { signal }, work) {
      const before = queues.get(name) ?? Promise.resolve()
      const closed = new Promise<void>((resolve) => signal?.addEventListener('abort', () => resolve(), { once: true }))
      let letGo = () => undefined as void
      const held = new Promise<void>((resolve) => (letGo = resolve))
      queues.set(
        name,
        before.then(() => held),
      )
      await Promise.race([before, closed])
      if (signal?.aborted) {
        letGo()
        throw new Error('The tab was closed while it waited for a lock')
      }
      try {
        return await Promise.race([work(), closed])
      } finally {
        letGo()
      }
    },
  }
}
