import type { BalancePort } from './serial-port.ts'

/** A line whose other end is the test: it sends pieces, ends or breaks. */
export function fakePort(refusal?: Error) {
  const waiting: (string | Error | undefined)[] = []
  let wake = () => {}
  const opened: Parameters<BalancePort['open']>[0][] = []
  const put = (next: string | Error | undefined) => {
    waiting.push(next)
    wake()
  }
  const port: BalancePort = {
    open: async (settings) => {
      if (refusal !== undefined) throw refusal
      opened.push(settings)
    },
    async *pieces() {
      for (;;) {
        while (waiting.length === 0) await new Promise<void>((resolve) => (wake = resolve))
        const next = waiting.shift()
        if (next === undefined) return
        if (next instanceof Error) throw next
        yield next
      }
    },
    close: async () => put(undefined),
  }
  return {
    port,
    opened,
    send: (piece: string) => put(piece),
    breakOff: () => put(new Error('The device has been lost.')),
  }
}
