import { expect, test } from 'vitest'
import { choosePort, serialOf, toBalancePort } from './serial-port.ts'

const bytes = (text: string) => new TextEncoder().encode(text)
const named = (name: string) => Object.assign(new Error(name), { name })

/** A browser's port whose streams are given one after the other, as it does behind a passing fault. */
function browserPort(streams: readonly ((source: ReadableStreamDefaultController<Uint8Array<ArrayBuffer>>) => void)[]) {
  const made = streams.map(
    (start) => new ReadableStream<Uint8Array<ArrayBuffer>>({ pull: start }, { highWaterMark: 0 }),
  )
  let at = -1
  return {
    get readable() {
      at += 1
      return at % 2 === 0 ? (made[at / 2] ?? null) : (made[(at - 1) / 2] ?? null)
    },
    open: async () => {},
    close: async () => {},
  }
}
async function read(port: ReturnType<typeof browserPort>): Promise<string[]> {
  const pieces: string[] = []
  for await (const piece of toBalancePort(port).pieces()) pieces.push(piece)
  return pieces
}

/** Gives one piece, then fails or ends at the next asking. */
function once(piece: string, then?: Error) {
  let given = false
  return (source: ReadableStreamDefaultController<Uint8Array<ArrayBuffer>>) => {
    if (!given) source.enqueue(bytes(piece))
    else if (then) source.error(then)
    else source.close()
    given = true
  }
}

test('a fault of one character is passed over; a lost line ends with its fault', async () => {
  expect(await read(browserPort([once('812', named('FramingError')), once('.4 g\r')]))).toEqual(['812', '.4 g\r'])
  await expect(read(browserPort([once('812', named('NetworkError')), once('.4 g\r')]))).rejects.toThrow('NetworkError')
})

test('the one port that was allowed before is taken without asking; of several the person chooses', async () => {
  const opened: string[] = []
  const port = (name: string) => ({ ...browserPort([]), open: async () => void opened.push(name) })
  const settings = { baudRate: 9600, dataBits: 8, parity: 'none', stopBits: 1 } as const
  const serial = (allowed: readonly string[]) => ({
    getPorts: async () => allowed.map(port),
    requestPort: async () => port('chosen'),
  })
  for (const allowed of [['known'], [], ['one', 'two']]) await (await choosePort(serial(allowed))).open(settings)
  expect(opened).toEqual(['known', 'chosen', 'chosen'])
  // The one that was allowed is another device: asked again, the person chooses.
  await (await choosePort(serial(['known']), true)).open(settings)
  expect(opened.at(-1)).toBe('chosen')
})

test('a browser without serial ports has none', () => {
  expect(serialOf({})).toBeUndefined()
  expect(serialOf({ serial: 7 })).toBe(7)
})
