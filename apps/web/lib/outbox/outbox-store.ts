import { openDB } from 'idb'
import type { OutboxEntry } from './outbox-entry.ts'

export type OutboxStore = {
  readonly all: () => Promise<OutboxEntry[]>
  /** All of them or, where the device goes down meanwhile, none. */
  readonly put: (entries: readonly OutboxEntry[]) => Promise<void>
  /**
   * Puts others in the place of entries that are there still, all or none; what another tab has taken away meanwhile does
   * not come back. @returns what stands in their place
   */
  readonly change: (
    ids: readonly string[],
    next: (standing: OutboxEntry) => readonly OutboxEntry[],
  ) => Promise<readonly OutboxEntry[]>
  readonly remove: (id: string) => Promise<void>
}

/** The device's own store. Nothing leaves it before the server has answered. */
export async function openOutboxStore(): Promise<OutboxStore> {
  const database = await openDB('curebook-outbox', 1, {
    upgrade: (created) => void created.createObjectStore('entries', { keyPath: 'id' }),
  })
  void navigator.storage?.persist?.()
  return {
    all: async () => ((await database.getAll('entries')) as OutboxEntry[]).sort((a, b) => a.order - b.order),
    put: async (entries) => {
      const transaction = database.transaction('entries', 'readwrite', { durability: 'strict' })
      await Promise.all([...entries.map((entry) => transaction.store.put(entry)), transaction.done])
    },
    change: async (ids, next) => {
      // Read and written in one transaction: no other tab's comes between.
      const transaction = database.transaction('entries', 'readwrite', { durability: 'strict' })
      const read = (await Promise.all(ids.map((id) => transaction.store.get(id)))) as (OutboxEntry | undefined)[]
      const changed: OutboxEntry[] = []
      const writing: Promise<unknown>[] = []
      for (const entry of read) {
        if (entry === undefined) continue
        const instead = next(entry)
        writing.push(transaction.store.delete(entry.id), ...instead.map((one) => transaction.store.put(one)))
        changed.push(...instead)
      }
      await Promise.all([...writing, transaction.done])
      return changed
    },
    remove: async (id) => database.delete('entries', id),
  }
}
