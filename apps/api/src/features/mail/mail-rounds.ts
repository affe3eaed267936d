import type { LiveLog } from '#platform/live'

/** Begins rounds each minute, one at a time; a round that fails is told and the next one comes. @returns what ends them */
export function startMailRounds({ round, log }: { round: () => Promise<void>; log: LiveLog }): () => Promise<void> {
  let working: Promise<void> = Promise.resolve()
  let busy = false
  const tick = () => {
    if (busy) return
    busy = true
    working = round()
      .catch((error: unknown) => log.error({ err: error }, 'a round of mail failed'))
      .finally(() => void (busy = false))
  }
  const timer = setInterval(tick, 60_000)
  return async () => {
    clearInterval(timer)
    await working
  }
}
