import type { BrowserContext, Page } from 'playwright-core'

/** What a tablet did beside showing its page; the browser of a test has neither speaker, motor, battery nor screen. */
export type Told = {
  readonly heard: number[]
  readonly felt: string[]
  readonly notified: string[]
  /** How often the screen is held on just now. */
  readonly awake: number
}

/** Puts a speaker, a motor, notifications, a battery of 12 % and a screen that can be held on into every page to come. */
export async function equip(context: BrowserContext): Promise<void> {
  await context.addInitScript(parts)
}

export const told = (page: Page): Promise<Told> => page.evaluate<Told>('window.told')
export const forget = (page: Page): Promise<unknown> =>
  page.evaluate('Object.assign(window.told, { heard: [], felt: [], notified: [] })')

// A text, since it runs in the page, whose types are not those of this process.
const parts = `{
  const told = (window.told = { heard: [], felt: [], notified: [], awake: 0 })
  const put = (name, value) => Object.defineProperty(Navigator.prototype, name, { configurable: true, get: () => value })
  put('vibrate', (pattern) => told.felt.push(pattern.join(' ')) > 0)
  put('getBattery', async () => ({ level: 0.12, charging: false, addEventListener() {}, removeEventListener() {} }))
  put('wakeLock', {
    request: async () => {
      told.awake += 1
      return { release: async () => void (told.awake -= 1) }
    },
  })
  const silent = { setValueAtTime() {}, linearRampToValueAtTime() {} }
  window.AudioContext = class {
    state = 'running'
    currentTime = 0
    createGain() {
      return { gain: silent, connect: (next) => next }
    }
    createOscillator() {
      const frequency = { set value(hertz) { told.heard.push(hertz) } }
      return { frequency, connect: (next) => next, start() {}, stop() {} }
    }
  }
  window.Notification = class {
    static permission = localStorage.getItem('test-notifications') ?? 'default'
    static async requestPermission() {
      localStorage.setItem('test-notifications', 'granted')
      return (Notification.permission = 'granted')
    }
    constructor(title, { body }) {
      told.notified.push(title + ': ' + body)
    }
    close() {}
  }
}`
