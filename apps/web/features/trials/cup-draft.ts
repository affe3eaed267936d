import { type TrialCup, cupReadings, cupShares } from '@curebook/contract/trials'

/** The columns of the table in their order, as they are typed. */
export const cupFields = [
  'emulsion',
  'water',
  'additive',
  'filler',
  'temperature',
  'mixTime',
  'coated',
  'clearWater',
  'remark',
] as const
export type CupField = (typeof cupFields)[number]

/** A cup as it is being typed. Times of the stopwatch are of this device, in ms. */
export type CupDraft = Readonly<Record<CupField, string>> & {
  /** Under which it is stored: sent again, it is the same cup. */
  readonly id: string
  readonly started: number | null
  readonly stopped: number | null
  /** The mix time that the stopwatch wrote; typed over, it is a typed one. */
  readonly timed: string
}

/** What one cup takes over from another: its recipe and how warm it is, nothing that was read. */
const copied = [...cupShares, 'temperature'] as const

export function emptyDraft(id: string): CupDraft {
  const empty = Object.fromEntries(cupFields.map((field) => [field, ''])) as Record<CupField, string>
  return { ...empty, id, started: null, stopped: null, timed: '' }
}

/** A stored cup opened to be completed or corrected. */
export function draftOf(cup: TrialCup, id: string): CupDraft {
  return {
    ...emptyDraft(id),
    ...Object.fromEntries([...cupShares, ...cupReadings].map((field) => [field, cup[field]?.typed ?? ''])),
    remark: cup.remark,
    started: cup.startedAt === null ? null : Date.parse(cup.startedAt),
    timed: cup.mixTimeFrom === 'stopwatch' ? (cup.mixTime?.typed ?? '') : '',
  }
}

/** The last cup's recipe in a cup that is being typed. */
export function copyLast(draft: CupDraft, last: TrialCup | undefined): CupDraft {
  return last === undefined
    ? draft
    : { ...draft, ...Object.fromEntries(copied.map((field) => [field, last[field]?.typed ?? ''])) }
}

/** The emulsion goes in: what an earlier run wrote is taken back. */
export function start(draft: CupDraft, now: number): CupDraft {
  return { ...draft, started: now, stopped: null, mixTime: '', timed: '' }
}

/** The mix breaks: its time in whole seconds. */
export function breakAt(draft: CupDraft, now: number): CupDraft {
  if (draft.started === null) return draft
  const timed = String(Math.round((now - draft.started) / 1000))
  return { ...draft, stopped: now, mixTime: timed, timed }
}

export function isRunning({ started, stopped }: CupDraft): boolean {
  return started !== null && stopped === null
}

/** Minutes and seconds for the big figures: 2:52. */
export function clockOf(draft: CupDraft, now: number): string {
  if (draft.started === null) return '0:00'
  const seconds = Math.max(0, Math.floor(((draft.stopped ?? now) - draft.started) / 1000))
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
    }) ||
    (cup.remark !== '' && cup.remark !== draft.remark.trim())
  )
}
const zeroShares = { additive: true, filler: true } as const

/** What is sent. `aheadMs`: what the server's clock is ahead of this device's. */
export function bodyOf(draft: CupDraft, aheadMs: number, supersedes?: { id: string; reason: string }) {
  const { id, started, timed } = draft
  return {
    ...Object.fromEntries(cupFields.map((field) => [field, draft[field].trim()])),
    id,
    mixTimeFrom: timed !== '' && draft.mixTime.trim() === timed ? 'stopwatch' : 'typed',
    startedAt: started === null ? null : new Date(started + aheadMs).toISOString(),
    ...(supersedes === undefined ? {} : { supersedes }),
  }
}

/** A draft as it was kept on the device; undefined for what is none. */
export function draftFrom(kept: string | null): CupDraft | undefined {
  try {
    const read: unknown = JSON.parse(kept ?? 'null')
    if (typeof read !== 'object' || read === null) return undefined
    const draft = read as CupDraft
    const whole =
      typeof draft.id === 'string' &&
      typeof draft.timed === 'string' &&
      cupFields.every((field) => typeof draft[field] === 'string')
    return whole ? draft : undefined
  } catch {
    return undefined
  }
}
