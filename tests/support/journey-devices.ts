import { crc32, deflateSync } from 'node:zlib'
import type { BrowserContext, Page } from 'playwright-core'
import { codeSquare } from '../../apps/api/src/platform/code-square.ts'

/** Devices beside a tablet as a browser meets them: what types like a keyboard, a serial line, a camera. */

/**
 * A keyboard into every page to come that says when its keys were pressed as a device does, a few milliseconds apart, and not
 * as fast as this machine passes them on: see typeAsDevice.
 */
export async function plugKeysIn(context: BrowserContext): Promise<void> {
  await context.addInitScript(keys)
}

/** A weight or a code as a balance or a scanner types it: one key close behind the other, and Enter behind them. */
export async function typeAsDevice(page: Page, text: string): Promise<void> {
  await page.evaluate('deviceKeys.begin()')
  await page.keyboard.type(text)
  await page.keyboard.press('Enter')
  await page.evaluate('deviceKeys.end()')
}

// Texts, since they run in the page, whose types are not those of this process.
const keys = `{
  const told = new WeakMap()
  const real = Object.getOwnPropertyDescriptor(Event.prototype, 'timeStamp').get
  let at
  window.deviceKeys = { begin: () => void (at = performance.now()), end: () => void (at = undefined) }
  Object.defineProperty(KeyboardEvent.prototype, 'timeStamp', {
    get() {
      if (at === undefined) return real.call(this)
      if (!told.has(this)) told.set(this, (at += 6))
      return told.get(this)
    },
  })
}`

/** A serial line into every page to come, with a balance at its other end that this test presses the keys of. */
export async function plugBalanceIn(context: BrowserContext): Promise<void> {
  await context.addInitScript(serial)
}

export const sendLine = (page: Page, line: string) => page.evaluate(`balance.send(${JSON.stringify(`${line}\r\n`)})`)
export const pullPlug = (page: Page) => page.evaluate('balance.unplug()')
/** How the page opened the line. */
export const lineOpened = (page: Page) => page.evaluate<Record<string, unknown>>('balance.opened')

const serial = `{
  let into
  const port = {
    readable: null,
    async open(settings) {
      if (port.readable !== null) throw new DOMException('The port is already open.', 'InvalidStateError')
      balance.opened = settings
      port.readable = new ReadableStream({ start: (controller) => void (into = controller) })
    },
    async close() {
      if (port.readable?.locked) throw new TypeError('Cannot close a port while its stream is locked')
      port.readable = null
    },
  }
  window.balance = {
    opened: undefined,
    // In pieces, as a line comes.
    send(text) {
      const bytes = new TextEncoder().encode(text)
      into.enqueue(bytes.slice(0, 5))
      into.enqueue(bytes.slice(5))
    },
    unplug() {
      into.error(new DOMException('The device has been lost.', 'NetworkError'))
      port.readable = null
    },
  }
  Object.defineProperty(Navigator.prototype, 'serial', {
    configurable: true,
    get: () => ({ getPorts: async () => [], requestPort: async () => port }),
  })
}`

/**
 * A camera into every page to come: the browser of the journeys has none of its own and no driver for one. What it gives is a
 * live picture, on which this test holds labels up.
 */
export async function giveCamera(context: BrowserContext): Promise<void> {
  await context.addInitScript(camera)
}

/** Holds the square of a code before the camera, as the product draws it on its labels. */
export const holdUp = (page: Page, code: string) => page.evaluate(`camera.show(${JSON.stringify(codeSquare(code))})`)
/** Why the browser gives no camera from now on; undefined once it gives it again. */
export const refuseCamera = (page: Page, name?: 'NotAllowedError' | 'NotFoundError') =>
  page.evaluate(`void (camera.refusal = ${JSON.stringify(name)})`)
/** How many pictures are being taken just now. */
export const camerasOn = (page: Page) => page.evaluate<number>('camera.on()')

const camera = `{
  const sheet = document.createElement('canvas')
  Object.assign(sheet, { width: 640, height: 480 })
  const pen = sheet.getContext('2d')
  let shown
  const draw = () => {
    pen.setTransform(1, 0, 0, 1, 0, 0)
    pen.fillStyle = '#ddd'
    pen.fillRect(0, 0, sheet.width, sheet.height)
    if (shown === undefined) return
    const cell = 300 / shown.size
    pen.setTransform(cell, 0, 0, cell, 170, 90)
    pen.fillStyle = '#222'
    pen.fill(new Path2D(shown.path))
  }
  const given = []
  window.camera = {
    refusal: undefined,
    show: (square) => void (shown = square),
    on: () => given.filter(({ readyState }) => readyState === 'live').length,
  }
  MediaDevices.prototype.getUserMedia = async () => {
    if (camera.refusal !== undefined) throw new DOMException('', camera.refusal)
    draw()
    const stream = sheet.captureStream(10)
    given.push(...stream.getTracks())
    return stream
  }
  // A picture comes with every drawing only.
  setInterval(draw, 100)
}`

/** A picture as large as a camera's, whose file is as large as its dots: PNG, without compression. */
export function largePicture(width: number, height: number): Buffer {
  const line = 1 + width * 3
  const dots = Buffer.alloc(line * height)
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1)
      dots.writeUIntBE(((x >> 4) << 16) | ((y >> 4) << 8) | 0x60, y * line + 1 + x * 3, 3)
  const head = Buffer.from([0, 0, 0, 0, 0, 0, 0, 0, 8, 2, 0, 0, 0])
  head.writeUInt32BE(width, 0)
  head.writeUInt32BE(height, 4)
  const parts = [part('IHDR', head), part('IDAT', deflateSync(dots, { level: 0 })), part('IEND', Buffer.alloc(0))]
  return Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), ...parts])
}

function part(name: string, content: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), content])
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)]
  length.writeUInt32BE(content.length)
  check.writeUInt32BE(crc32(body))
  return Buffer.concat([length, body, check])
}
