import { ended, exclusively } from './exclusive.ts'

export type LiveEvent = { readonly seq: string; readonly topics: readonly string[] }
export type LiveState = 'live' | 'lost'
type Message = { readonly event?: LiveEvent; readonly state?: LiveState }

/**
 * Listens to the changes of one laboratory until `signal` ends. One connection a browser: the tab that holds the lock
 * passes every event to the others. After a gap the server replays from the last number it was told.
 */
export function listenLive(
  labId: string,
  signal: AbortSignal,
  handlers: { readonly onEvent: (event: LiveEvent) => void; readonly onState: (state: LiveState) => void },
): void {
  const name = `curebook-live-${labId}`
  const others = new BroadcastChannel(name)
  let last: string | undefined
  const take = ({ event, state }: Message) => {
    if (event !== undefined && event.seq !== last) {
      last = event.seq
      handlers.onEvent(event)
    }
    if (state !== undefined) handlers.onState(state)
  }
  others.onmessage = ({ data }: MessageEvent<Message>) => take(data)
  signal.addEventListener('abort', () => others.close(), { once: true })

  void exclusively(name, signal, async () => {
    const share = (message: Message) => {
      if (signal.aborted) return
      take(message)
      others.postMessage(message)
    }
    const after = last === undefined ? '' : `?after=${encodeURIComponent(last)}`
    const source = new EventSource(`/api/labs/${encodeURIComponent(labId)}/events${after}`)
    source.onopen = () => share({ state: 'live' })
    source.onerror = () => share({ state: 'lost' })
    source.onmessage = ({ data, lastEventId }: MessageEvent<string>) => {
      const { seq = lastEventId, topics } = JSON.parse(data) as { seq?: string | number; topics: string[] }
      share({ event: { seq: String(seq), topics } })
    }
    await ended(signal)
    source.close()
  })
}
