import type { LoadMoved, PutIn, TakeOut } from '@curebook/contract/loads'
import { logLane } from '#features/conditions/waiting-values.ts'
import type { NewOutboxEntry, OutboxEntry } from '#lib/outbox/outbox-entry.ts'

type Moved = PutIn | TakeOut

/**
 * What was entered in refused acts and is not entered anew: the temperature of the same oven or load, and the word. Not what the
 * record has already, nor what it was refused for. A temperature read at one act goes with that act, at its time.
 * @param path where the new one goes
 * @param refused those in whose place it stands, in their order
 */
export function withCarriedOver<Body extends Moved>(body: Body, path: string, refused: readonly OutboxEntry[]): Body {
  const before = refused.filter((entry) => isSamePlace(entry, path, body))
  const temperature = body.temperature ?? before.flatMap((entry) => temperatureIn(entry) ?? []).at(-1) ?? null
  if (!('word' in body) || body.word.trim() !== '') return { ...body, temperature }
  return { ...body, temperature, word: before.flatMap(wordIn).at(-1) ?? '' }
}

/** Whether an act at this path would be about the load, or the oven, of the refused one. */
export function isSamePlace(entry: OutboxEntry, path: string, body: Moved): boolean {
  if (entry.path === path) return true
  const opens = 'opens' in body ? body.opens : null
  // A put-in may go into a new load of the same oven.
  return opens !== null && /\/loads\/[^/]+\/in$/.test(entry.path) && (entry.body as PutIn).opens === opens
}

function temperatureIn(entry: OutboxEntry): NonNullable<Moved['temperature']> | null {
  const { temperature } = entry.body as Partial<Moved>
  if (!temperature || isRefusedFor(entry, ['temperature', 'instrumentId'])) return null
  // Others of the same act were confirmed, and the temperature was kept with them.
  const { load } = (entry.problem?.extra.answer ?? {}) as Partial<LoadMoved>
  return load?.temperatures.some(({ id }) => id === temperature.id) === true ? null : temperature
}

function wordIn(entry: OutboxEntry): readonly string[] {
  const { word = '' } = entry.body as Partial<TakeOut>
  return word.trim() === '' || isRefusedFor(entry, ['word']) ? [] : [word]
}

/** Whether one of these fields is what it was refused for. */
export const isRefusedFor = ({ problem }: OutboxEntry, fields: readonly string[]): boolean =>
  problem?.errors.some(({ path }) => fields.includes(path.split('.')[0] ?? '')) === true

/**
 * The load of a refused put-in, where this one opens a new load of the same oven in its place: what waits behind the refused one,
 * taking out or reading that load, then finds it.
 * @param stands loads that stand in the oven: one that others went into is not a new one
 */
export function loadOfRefused(
  refused: readonly OutboxEntry[],
  opens: string,
  stands: readonly string[],
): string | undefined {
  return refused
    .filter(({ path, body }) => path.endsWith('/in') && (body as PutIn).opens === opens)
    .flatMap(({ path }) => /\/loads\/([^/]+)\/in$/.exec(path)?.[1] ?? [])
    .find((id) => !stands.includes(id))
}

/**
 * Temperatures of refused acts in whose place something is confirmed elsewhere: each was read there and then all the same, and goes
 * by itself, into the log of the oven or bath that was to take the load, or as a reading of the load that was to be let out.
 */
export function temperaturesElsewhere(refused: readonly OutboxEntry[]): readonly NewOutboxEntry[] {
  const read = refused.flatMap((entry) => {
    const temperature = temperatureIn(entry)
    return temperature === null ? [] : [[temperature.id, { entry, temperature }] as const]
  })
  // One of several specimens that were refused each by itself.
  return [...new Map(read).values()].flatMap(
    ({ entry: { path, body, label, lane, topics }, temperature }): readonly NewOutboxEntry[] => {
      const { opens = null, time } = body as Pick<Moved, 'time'> & Partial<PutIn>
      const [, lab, load] = /^(.*)\/loads\/([^/]+)\/(?:in|out)$/.exec(path) ?? []
      if (lab === undefined || load === undefined) return []
      const { id, typed, instrumentId } = temperature
      if (opens === null) {
        const reading = { id, key: 'temperature', testId: null, typed, instrumentId, time, supersedes: null }
        return [{ id, lane, path: `${lab}/loads/${load}/readings`, body: reading, label, topics }]
      }
      const value = { values: [{ id, value: typed, unit: '°C' }], time }
      const ofLog = [`conditions:${opens}`, ...topics]
      return [
        { id, lane: logLane(opens), path: `${lab}/instruments/${opens}/conditions`, body: value, label, topics: ofLog },
      ]
    },
  )
}
