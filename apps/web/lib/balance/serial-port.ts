import type { LineSettings } from '@curebook/contract/line-settings'

/** A line to a balance that pieces of text come in on. What is behind it is the browser's port, or a test's. */
export type BalancePort = {
  readonly open: (settings: Omit<LineSettings, 'example' | 'shown'>) => Promise<void>
  /** Ends when the port is closed; throws when it is lost. */
  readonly pieces: () => AsyncIterable<string>
  readonly close: () => Promise<void>
}

/** What of the browser's serial port is used here; the types of the browser do not know it yet. */
type SerialPortLike = {
  readonly readable: ReadableStream<Uint8Array<ArrayBuffer>> | null
  readonly open: (options: {
    readonly baudRate: number
    readonly dataBits: number
    readonly parity: string
    readonly stopBits: number
  }) => Promise<void>
  readonly close: () => Promise<void>
}
type SerialLike = {
  readonly getPorts: () => Promise<readonly SerialPortLike[]>
  readonly requestPort: () => Promise<SerialPortLike>
}

/** The serial ports of this browser, if it has any. */
export function serialOf(browser: object): SerialLike | undefined {
  return 'serial' in browser ? (browser.serial as SerialLike) : undefined
}

/** The port that was allowed before, where it is the only one; else, or where that was not the right one, the person is asked. */
export async function choosePort(serial: SerialLike, ask = false): Promise<BalancePort> {
  const allowed = ask ? [] : await serial.getPorts()
  return toBalancePort(allowed.length === 1 ? allowed[0]! : await serial.requestPort())
}

/** Faults of one character: the browser gives a fresh stream behind them, and the splitter drops nothing but that line. */
const passing = ['BreakError', 'BufferOverrunError', 'FramingError', 'ParityError']

export function toBalancePort(port: SerialPortLike): BalancePort {
  let reader: ReadableStreamDefaultReader<Uint8Array<ArrayBuffer>> | undefined
  return {
    open: ({ baudRate, dataBits, parity, stopBits }) => port.open({ baudRate, dataBits, parity, stopBits }),
    async *pieces() {
      // Balances write plain ASCII; a byte that is none becomes a sign that no example has.
      const decoder = new TextDecoder()
      while (port.readable) {
        reader = port.readable.getReader()
        try {
          for (;;) {
            const { value, done } = await reader.read()
            if (done) return
            yield decoder.decode(value, { stream: true })
          }
        } catch (cause) {
          if (!(cause instanceof Error && passing.includes(cause.name))) throw cause
        } finally {
          reader.releaseLock()
          reader = undefined
        }
      }
    },
    close: async () => {
      await reader?.cancel().catch(() => undefined)
      await port.close()
    },
  }
}
