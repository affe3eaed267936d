import { learnLine, type LineFormat } from '@curebook/trade/quantity/balance-line'
import type { LineSettings } from '@curebook/contract/line-settings'
import { readLines } from './line-splitter.ts'
import { judgeLine, type SentWeight } from './sent-weight.ts'
import type { BalancePort } from './serial-port.ts'

export type LinkState = {
  readonly state: 'off' | 'connecting' | 'connected' | 'lost' | 'not-opened'
  /** Whose line it is, from the first try on. */
  readonly instrumentId: string | undefined
  /** Why it could not be opened, in the browser's words. */
  readonly reason?: string
}
export type BalanceLink = ReturnType<typeof createBalanceLink>

/**
 * The line to one balance, for as long as the page lives: whichever field is open hears of the weights, and one alone. A line
 * that ends by itself is lost and says so; what it sent before stays where it stands.
 */
export function createBalanceLink(now: () => number = Date.now) {
  let link: LinkState = { state: 'off', instrumentId: undefined }
  let port: BalancePort | undefined
  let held: string | undefined
  const watchers = new Set<() => void>()
  const listeners: ((weight: SentWeight) => void)[] = []

  const become = (next: LinkState) => {
    link = next
    for (const watcher of watchers) watcher()
  }

  async function read(from: BalancePort, format: LineFormat, instrumentId: string) {
    let before = now()
    try {
      await readLines(from, (line) => {
        const at = now()
        const weight = judgeLine(format, { line, at }, before)
        before = at
        if (weight.kind === 'not-understood' || weight.typed !== held) held = undefined
        // The field that was opened last is the one in hand.
        listeners.at(-1)?.(weight)
      })
    } catch {
      // Unplugged or switched off: said below like any other end.
    }
    if (port !== from) return
    port = undefined
    become({ state: 'lost', instrumentId })
    await from.close().catch(() => undefined)
  }

  return {
    state: () => link,
    /** A weight was stored: until another line comes, what is sent is still of that specimen. */
    stored: (typed: string) => void (held = typed),
    heldOver: () => held,
    watch: (watcher: () => void) => {
      watchers.add(watcher)
      return () => void watchers.delete(watcher)
    },
    listen: (listener: (weight: SentWeight) => void) => {
      listeners.push(listener)
      return () => {
        const at = listeners.lastIndexOf(listener)
        if (at >= 0) listeners.splice(at, 1)
      }
    },
    /** `choose` asks the person for the port where it must; cancelled there, nothing has happened. */
    connect: async (instrumentId: string, line: LineSettings, choose: () => Promise<BalancePort>) => {
      if (link.state === 'connecting') return
      const learnt = learnLine({ line: line.example, shown: line.shown })
      if (!learnt.ok) return become({ state: 'not-opened', instrumentId, reason: learnt.message })
      await end()
      become({ state: 'connecting', instrumentId })
      try {
        const chosen = await choose()
        await chosen.open(line)
        port = chosen
        held = undefined
        become({ state: 'connected', instrumentId })
        void read(chosen, learnt.format, instrumentId)
      } catch (cause) {
        // No port was chosen: the person turned away, which needs no words.
        if (cause instanceof Error && cause.name === 'NotFoundError') become({ state: 'off', instrumentId: undefined })
        else
          become({ state: 'not-opened', instrumentId, reason: cause instanceof Error ? cause.message : String(cause) })
      }
    },
    disconnect: async () => {
      await end()
      become({ state: 'off', instrumentId: undefined })
    },
  }

  async function end() {
    const ended = port
    port = undefined
    await ended?.close().catch(() => undefined)
  }
}
