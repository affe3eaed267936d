import {
  cupBreaks,
  cupConsistencies,
  cupLooks,
  cupReadings,
  cupShares,
  type CupShare,
  type TrialCup,
} from '@curebook/contract/trials'

/** The columns of the table in their order, as they are typed. */
export const cupFields = [
  'emulsion',
  'water',
  'additive',
  'filler',
  'temperature',
  'consistency',
  'mixTime',
  'broke',
  'coated',
  'clearWater',
  'remark',
] as const
export type CupField = (typeof cupFields)[number]
/** What is chosen or written, and not read as a number. */
export const cupWords = [...cupLooks, 'remark'] as const
export const isWord = (field: CupField): field is (typeof cupWords)[number] =>
  (cupWords as readonly string[]).includes(field)

/** A cup as it is being typed. Times of the stopwatch are of this device, in ms. */
export type CupDraft = Readonly<Record<CupField, string>> & {
  /** Under which it is stored: sent again, it is the same cup. */
  readonly id: string
  readonly started: number | null
  readonly stopped: number | null
  /** The start by the server's clock, fixed when it was pressed: sent again, it is the same instant. */
  readonly startedAt: string | null
  /** The mix time that the stopwatch wrote; typed over, it is a typed one. */
  readonly timed: string
  /** The run before, which stands until the new one breaks. */
  readonly earlier: Pick<CupDraft, 'started' | 'stopped' | 'startedAt'> | null
}

/** A start sooner than this after a break is the same wet finger. Common practice, no source. */
const bounceMs = 1_000

/** What one cup takes over from another: its recipe and how warm it is, nothing that was read. */
const copied = [...cupShares, 'temperature'] as const

export function emptyDraft(id: string): CupDraft {
  const empty = Object.fromEntries(cupFields.map((field) => [field, ''])) as Record<CupField, string>
  return { ...empty, id, started: null, stopped: null, startedAt: null, timed: '', earlier: null }
}

/** The next cup after one that was written down: its recipe, to be changed by one thing, and nothing that was read. */
export function nextDraft(id: string, last: Readonly<Record<CupShare, string>> | undefined): CupDraft {
  const draft = emptyDraft(id)
  return last === undefined
    ? draft
    : { ...draft, ...Object.fromEntries(cupShares.map((share) => [share, last[share]])) }
}

/** The recipe of a stored cup as it was typed. */
export function recipeOf(cup: TrialCup | undefined): Readonly<Record<CupShare, string>> | undefined {
  if (cup === undefined) return undefined
  return Object.fromEntries(cupShares.map((share) => [share, cup[share].typed])) as Record<CupShare, string>
}

/** A stored cup opened to be completed or corrected. */
export function draftOf(cup: TrialCup, id: string): CupDraft {
  return {
    ...emptyDraft(id),
    ...Object.fromEntries([...cupShares, ...cupReadings].map((field) => [field, cup[field]?.typed ?? ''])),
    ...wordsOf(cup),
    started: cup.startedAt === null ? null : Date.parse(cup.startedAt),
    startedAt: cup.startedAt,
    timed: cup.mixTimeFrom === 'stopwatch' ? (cup.mixTime?.typed ?? '') : '',
  }
}

/** The last cup's recipe in a cup that is being typed. */
export function copyLast(draft: CupDraft, last: TrialCup | undefined): CupDraft {
  return last === undefined
    ? draft
    : { ...draft, ...Object.fromEntries(copied.map((field) => [field, last[field]?.typed ?? ''])) }
}

/**
 * The emulsion goes in. What an earlier run wrote stands until this one breaks.
 * @param aheadMs what the server's clock is ahead of this device's
 */
export function start(draft: CupDraft, now: number, aheadMs: number): CupDraft {
  const { started, stopped, startedAt } = draft
  if (isRunning(draft) || (stopped !== null && now - stopped < bounceMs)) return draft
  return {
    ...draft,
    started: now,
    stopped: null,
    startedAt: new Date(now + aheadMs).toISOString(),
    earlier: stopped === null ? null : { started, stopped, startedAt },
  }
}

/** The mix breaks: its time in whole seconds. */
export function breakAt(draft: CupDraft, now: number): CupDraft {
  if (draft.started === null) return draft
  const timed = String(secondsOf(draft.started, now))
  return { ...draft, stopped: now, mixTime: timed, timed, earlier: null }
}

/** A start in error: the run before stands again, with its time. */
export function takeBack(draft: CupDraft): CupDraft {
  return draft.earlier === null ? draft : { ...draft, ...draft.earlier, earlier: null }
}

/** Whole seconds that have passed, as a stopwatch shows and writes them. */
function secondsOf(started: number, until: number): number {
  return Math.max(0, Math.floor((until - started) / 1000))
}

export function isRunning({ started, stopped }: CupDraft): boolean {
  return started !== null && stopped === null
}

/** Minutes and seconds for the big figures: 2:52. */
export function clockOf(draft: CupDraft, now: number): string {
  if (draft.started === null) return '0:00'
  const seconds = secondsOf(draft.started, draft.stopped ?? now)
  return [Math.floor(seconds / 60), String(seconds % 60).padStart(2, '0')].join(':')
}

/** Whether something that was read stands otherwise in the draft: then a reason is asked for. */
export function changesRead(cup: TrialCup, draft: CupDraft): boolean {
  return (
    [...cupShares, ...cupReadings].some((field) => {
      const before = cup[field]?.typed ?? ''
      // A share left empty is one that was not added.
      const now = draft[field].trim() === '' && field in zeroShares ? '0' : draft[field].trim()
      return before !== '' && before !== now
    }) || cupWords.some((field) => wordsOf(cup)[field] !== '' && wordsOf(cup)[field] !== draft[field].trim())
  )
}
const zeroShares = { additive: true, filler: true } as const

/** Whether a stored cup says just what the draft says: the draft was stored, and only its answer was lost. */
export function isStoredAs(cup: TrialCup, draft: CupDraft): boolean {
  const same = [...cupShares, ...cupReadings].every((field) => {
    const typed = draft[field].trim()
    const stored = cup[field]?.typed ?? ''
    return typed === stored || (typed === '' && field in zeroShares && Number(cup[field]?.value) === 0)
  })
  return same && cupWords.every((field) => wordsOf(cup)[field] === draft[field].trim())
}

function wordsOf({ consistency, broke, remark }: TrialCup): Readonly<Record<(typeof cupWords)[number], string>> {
  return { consistency: consistency ?? '', broke: broke ?? '', remark }
}

/** Whether anything is in a draft that could be lost: more than the recipe that it began with. */
export function holdsAnything(draft: CupDraft, began?: Readonly<Record<CupShare, string>>): boolean {
  const fresh = nextDraft(draft.id, began)
  return draft.started !== null || cupFields.some((field) => draft[field] !== '' && draft[field] !== fresh[field])
}

/** What is sent: the same each time while the draft is the same. */
export function bodyOf(draft: CupDraft, supersedes?: { id: string; reason: string }) {
  const { id, startedAt, timed } = draft
  return {
    ...Object.fromEntries(cupFields.map((field) => [field, draft[field].trim()])),
    id,
    mixTimeFrom: timed !== '' && draft.mixTime.trim() === timed ? 'stopwatch' : 'typed',
    startedAt,
    ...(supersedes === undefined ? {} : { supersedes }),
  }
}

/** A draft as it was kept on the device; undefined for what is none. */
export function draftFrom(kept: string | null): CupDraft | undefined {
  try {
    const read: unknown = JSON.parse(kept ?? 'null')
    if (typeof read !== 'object' || read === null) return undefined
    // Kept before it was asked how a cup looked and broke: nobody noted it.
    const draft = { consistency: '', broke: '', ...read } as CupDraft
    const whole =
      isOneOf(draft.consistency, cupConsistencies) &&
      isOneOf(draft.broke, cupBreaks) &&
      typeof draft.id === 'string' &&
      typeof draft.timed === 'string' &&
      cupFields.every((field) => typeof draft[field] === 'string')
    // Kept before the start by the server's clock was: this device's is the best there is.
    const { started = null, startedAt = started === null ? null : new Date(started).toISOString() } = draft
    return whole ? { ...draft, started, startedAt, earlier: draft.earlier ?? null } : undefined
  } catch {
    return undefined
  }
}

function isOneOf(value: string, known: readonly string[]): boolean {
  return value === '' || known.includes(value)
}
