import type { Browser, BrowserContext, BrowserContextOptions, Page, Request } from 'playwright-core'
import { launchBrowser } from './browser.ts'
import { startProduct, type Product, type ProductOptions } from './journey-product.ts'

export type Asked = {
  readonly method: string
  readonly path: string
  readonly status: number | undefined
  readonly body: string | null
}
export type Journey = Awaited<ReturnType<typeof startJourney>>
export type Person = { readonly page: Page; readonly context: BrowserContext }

const patience = 30_000

/** A browser of one's own for every person, far from the laboratory's zone, on one product. */
export async function startJourney({ at, ...options }: { at: string } & ProductOptions) {
  const product = await startProduct(options)
  const browser = await launchBrowser().catch(async (error: unknown) => {
    await product.stop()
    throw error
  })
  const contexts: BrowserContext[] = []
  const asked: Asked[] = []
  const faults: string[] = []
  let now = at
  await product.setClock(at)

  return {
    product,
    browser,
    /** Every request to the API that a page has made, in the order of the answers. */
    asked,
    /** Errors that pages threw or wrote to the console; refusals of the API (4xx) are not among them. */
    faults,
    /** Moves the server's clock and the clock of every open page alike. */
    async clockTo(instant: string) {
      now = instant
      await product.setClock(instant)
      for (const context of contexts) await context.clock.setFixedTime(instant)
    },
    /** Somebody with a device of their own, on its first page. */
    async arrive(options: BrowserContextOptions = {}): Promise<Person> {
      const context = await newContext(browser, product, options)
      contexts.push(context)
      await context.clock.setFixedTime(now)
      watch(context, asked, faults)
      return { context, page: await context.newPage() }
    },
    async close() {
      await browser.close()
      await product.stop()
    },
  }
}

async function newContext(browser: Browser, product: Product, options: BrowserContextOptions) {
  const context = await browser.newContext({
    baseURL: product.url,
    viewport: { width: 1280, height: 900 },
    locale: 'en-GB',
    timezoneId: 'America/Bogota',
    reducedMotion: 'reduce',
    // Every new browser would fetch the whole build once more for work without a network: offline-bench.test.ts allows it.
    serviceWorkers: 'block',
    ...options,
  })
  context.setDefaultTimeout(patience)
  await context.addInitScript(neverAbsent)
  return context
}

/**
 * The hours that a journey passes over are nobody's absence: for its pages no touch was ever noted, so that no screen locks
 * for them. The lock itself is tried in idle-watch.test.ts.
 */
export const neverAbsent = `{
  const read = Storage.prototype.getItem
  Storage.prototype.getItem = function (key) {
    return key === 'curebook-acted' ? null : read.call(this, key)
  }
}`

function watch(context: BrowserContext, asked: Asked[], faults: string[]) {
  const note = async (request: Request) => {
    const { pathname } = new URL(request.url())
    if (!pathname.startsWith('/api/')) return
    const answer = await request.response().catch(() => null)
    asked.push({ method: request.method(), path: pathname, status: answer?.status(), body: request.postData() })
  }
  context.on('request', (request) => void note(request))
  context.on('weberror', (error) => faults.push(error.error().stack ?? error.error().message))
  context.on('console', (message) => {
    const text = message.text()
    if (message.type() === 'error' && !/the server responded with a status of 4\d\d/.test(text)) faults.push(text)
  })
}

/** Signs in on the sign-in page and waits for the first screen. */
export async function signIn({ page }: Person, email: string, password: string, at = '/sign-in'): Promise<void> {
  await page.goto(at)
  await page.getByLabel('E-mail address').fill(email)
  await page.getByLabel('Password', { exact: true }).fill(password)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.waitForURL(/\/(l\/|choose-laboratory|invitation)/)
}
