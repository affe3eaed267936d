import { openDB } from 'idb'
import type { OutboxEntry } from './outbox-entry.ts'

export type OutboxStore = {
  readonly all: () => Promise<OutboxEntry[]>
  readonly put: (entry: OutboxEntry) => Promise<void>
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
    put: async (entry) => {
      const transaction = database.transaction('entries', 'readwrite', { durability: 'strict' })
      await Promise.all([transaction.store.put(entry), transaction.done])
    },
    remove: async (id) => database.delete('entries', id),
  }
}
