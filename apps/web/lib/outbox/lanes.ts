import type { OutboxEntry } from './outbox-entry.ts'

type Placed = Pick<OutboxEntry, 'lane' | 'rows'>

/** Every lane that an entry stands in: its own, and that of each specimen in it. */
export function lanesOf({ lane, rows = [] }: Placed): readonly string[] {
  return [...new Set([lane, ...rows.map((row) => row.lane)])]
}

/** What stands first in all of its lanes, of entries in their order. */
export function headsOf(entries: readonly OutboxEntry[]): readonly OutboxEntry[] {
  const taken = new Set<string>()
  return entries.filter((entry) => {
    const lanes = lanesOf(entry)
    const isHead = lanes.every((lane) => !taken.has(lane))
    for (const lane of lanes) taken.add(lane)
    return isHead
  })
}

/** Of `later` entries, those that wait behind lanes that are held, directly or behind another that does. */
export function idsBehind(held: readonly string[], later: readonly OutboxEntry[]): string[] {
  const holds = new Set(held)
  return later.flatMap((entry) => {
    const lanes = lanesOf(entry)
    if (lanes.every((lane) => !holds.has(lane))) return []
    for (const lane of lanes) holds.add(lane)
    return [entry.id]
  })
}

/** Of entries in their order, those that wait behind some of them, directly or behind another that does. */
export function idsBehindThese(ids: ReadonlySet<string>, entries: readonly OutboxEntry[]): string[] {
  const holds = new Set<string>()
  return entries.flatMap((entry) => {
    const lanes = lanesOf(entry)
    const isOne = ids.has(entry.id)
    if (!isOne && lanes.every((lane) => !holds.has(lane))) return []
    for (const lane of lanes) holds.add(lane)
    return isOne ? [] : [entry.id]
  })
}

/** The refused entry that one waits behind, the last of them; undefined where none is. */
export function refusedBefore(entry: OutboxEntry, entries: readonly OutboxEntry[]): OutboxEntry | undefined {
  const lanes = lanesOf(entry)
  return entries.findLast(
    (other) =>
      other.state === 'refused' &&
      other.order < entry.order &&
      other.membershipId === entry.membershipId &&
      lanesOf(other).some((lane) => lanes.includes(lane)),
  )
}
