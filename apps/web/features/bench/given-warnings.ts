import { inOneTab } from '#lib/exclusive.ts'
import { storedRecord } from '#lib/stored-record.ts'

/** Which warnings this device gave, by window, with when that window closes. */
const storedAs = 'curebook-warned'
/** Kept this long after its window has closed, then forgotten. Our own choice, no source. */
const keptMs = 86_400_000

type Kept = Pick<Storage, 'getItem' | 'setItem'>
type Given = { readonly settles: readonly string[]; readonly closesAt: string }

/** What was given already on this device, in any tab and before a reload; what is broken counts as nothing. */
export function givenWarnings(storage: Pick<Storage, 'getItem'>): ReadonlySet<string> {
  return new Set(Object.keys(read(storage)))
}

/**
 * Takes warnings for this tab, and notes them as given: of several tabs of a browser, to which they fall due at the same
 * moment, one has each. @returns those that are this tab's to give
 */
export async function claimWarnings<Warning extends Given>(
  storage: Kept,
  dueOf: (given: ReadonlySet<string>) => readonly Warning[],
  now: number,
): Promise<readonly Warning[]> {
  if (dueOf(givenWarnings(storage)).length === 0) return []
  const own = await inOneTab(storedAs, storage, () => {
    // Looked at again in turn: the tab before may have given them.
    const due = dueOf(givenWarnings(storage))
    if (due.length > 0) noteGiven(storage, due, now)
    return due
  })
  return own ?? []
}

/** Notes them as given; those of windows closed long ago are forgotten on the way. */
export function noteGiven(storage: Kept, warnings: readonly Given[], now: number): void {
  const added = warnings.flatMap(({ settles, closesAt }) => settles.map((id) => [id, Date.parse(closesAt)] as const))
  const kept = Object.entries(read(storage)).filter(([, closes]) => closes > now - keptMs)
  storage.setItem(storedAs, JSON.stringify(Object.fromEntries([...kept, ...added])))
}

function read(storage: Pick<Storage, 'getItem'>): Readonly<Record<string, number>> {
  const kept = Object.entries(storedRecord(storage.getItem(storedAs)))
  return Object.fromEntries(kept.filter((entry): entry is [string, number] => typeof entry[1] === 'number'))
}
