import { ended, exclusively } from './exclusive.ts'

export type LiveEvent = { readonly seq: number; readonly topics: readonly string[] }
/** `gap`: the line is there again, and something may have been missed. `ended`: the server says that rights have changed. */
export type LiveState = 'live' | 'lost'
export type LiveNews = {
  readonly event?: LiveEvent
  readonly state?: LiveState
  readonly gap?: true
  readonly ended?: true
}

const RECONNECT_MS = 5_000
const TOOK_OVER_MS = 1_000

/**
 * Listens to the changes of one laboratory until `signal` ends. One connection a browser: the tab that holds the lock
 * passes all it hears to the others. After a short break the browser asks for what it missed by the last number.
 */
export function listenLive(labId: string, signal: AbortSignal, take: (news: LiveNews) => void): void {
  const name = `curebook-live-${labId}`
  const others = new BroadcastChannel(name)
  others.onmessage = ({ data }: MessageEvent<LiveNews>) => take(data)
  signal.addEventListener('abort', () => others.close(), { once: true })
  const since = performance.now()

  void exclusively(name, signal, async () => {
    const share = (news: LiveNews) => {
      if (signal.aborted) return
      take(news)
      others.postMessage(news)
    }
    // This tab takes over from one that was closed: nobody listened in between.
    let gap = performance.now() - since > TOOK_OVER_MS
    while (!signal.aborted) {
      const source = new EventSource(`/api/labs/${encodeURIComponent(labId)}/events`)
      await heard(source, signal, (news) => {
        share(news.state === 'live' && gap ? { state: 'live', gap: true } : news)
        if (news.state === 'live') gap = false
      })
      gap = true
      await Promise.race([ended(signal), new Promise((resolve) => setTimeout(resolve, RECONNECT_MS))])
    }
  })
}

/** Passes on what one connection says, until it is closed for good or the signal ends. */
function heard(source: EventSource, signal: AbortSignal, share: (news: LiveNews) => void): Promise<void> {
  return new Promise((resolve) => {
    const close = () => {
      source.close()
      resolve()
    }
    signal.addEventListener('abort', close, { once: true })
    source.onopen = () => share({ state: 'live' })
    source.onmessage = ({ data }: MessageEvent<string>) => share({ event: JSON.parse(data) as LiveEvent })
    source.addEventListener('ended', () => share({ ended: true }))
    source.onerror = () => {
      share({ state: 'lost' })
      // Connecting again by itself is the browser's, except after an answer that it takes as final.
      if (source.readyState === EventSource.CLOSED) close()
    }
  })
}
