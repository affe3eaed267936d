import type { OutboxProblem } from './outbox-entry.ts'
import type { OutboxNews } from './outbox.ts'

/** `kept`: on this device still; it goes out by itself. */
export type Heard =
  | { readonly state: 'stored'; readonly answer: unknown }
  | { readonly state: 'refused'; readonly problem: OutboxProblem }
  | { readonly state: 'kept' }

export type Listening = {
  /** Once all were answered or wait, and after `ms` at the latest: what is known of each. */
  readonly within: (ms: number) => Promise<ReadonlyMap<string, Heard>>
  readonly end: () => void
}

/** Waits for what comes of entries. One listens before they are put, so that no answer is missed. */
export function createHearing() {
  const ears = new Set<(id: string, heard: Heard) => void>()
  const tellAll = (id: string, heard: Heard) => ears.forEach((ear) => ear(id, heard))
  return {
    note(news: OutboxNews): void {
      if (news.kind === 'stored') tellAll(news.id, { state: 'stored', answer: news.answer })
      else if (news.kind === 'refused') tellAll(news.id, { state: 'refused', problem: news.problem })
      else for (const id of news.waits ?? []) tellAll(id, { state: 'kept' })
    },
    listen(ids: readonly string[]): Listening {
      const open = new Set(ids)
      const known = new Map<string, Heard>(ids.map((id) => [id, { state: 'kept' }]))
      let tellDone: () => void = () => undefined
      const done = new Promise<void>((resolve) => (tellDone = resolve))
      const ear = (id: string, heard: Heard) => {
        if (!known.has(id)) return
        known.set(id, heard)
        open.delete(id)
        if (open.size === 0) tellDone()
      }
      ears.add(ear)
      return {
        within: async (ms) => {
          let timer: ReturnType<typeof setTimeout> | undefined
          const late = new Promise<void>((resolve) => (timer = setTimeout(resolve, ms)))
          await Promise.race([done, late])
          clearTimeout(timer)
          return new Map(known)
        },
        end: () => void ears.delete(ear),
      }
    },
  }
}
