import type { OutboxEntry } from './outbox-entry.ts'
import type { OutboxStore } from './outbox-store.ts'

/** A device's store in memory; stores on the same `kept` are the tabs of one browser. */
export function memoryStore(kept: Map<string, OutboxEntry>): OutboxStore {
  return {
    all: () => Promise.resolve([...kept.values()].sort((a, b) => a.order - b.order)),
    put: (entries) => Promise.resolve(entries.forEach((entry) => kept.set(entry.id, entry))),
    change: (ids, next) =>
      Promise.resolve(
        ids.flatMap((id) => {
          const standing = kept.get(id)
          if (standing === undefined) return []
          const instead = next(standing)
          if (instead.every((entry) => entry.id !== id)) kept.delete(id)
          for (const entry of instead) kept.set(entry.id, entry)
          return instead
        }),
      ),
    remove: (id) => Promise.resolve(void kept.delete(id)),
  }
}
