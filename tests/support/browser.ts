import sparticuz from '@sparticuz/chromium'
import { existsSync } from 'node:fs'
import { chromium, type Browser, type BrowserContext, type BrowserContextOptions } from 'playwright-core'

const ofTheSystem = '/usr/bin/chromium'
/** Made for a place without processes or an origin; here the browser shall guard origins as a person's does. */
const unwanted = new Set([
  '--single-process',
  '--no-zygote',
  '--disable-web-security',
  '--allow-running-insecure-content',
  '--disable-site-isolation-trials',
])

/**
 * Unpacks the browser that came with the packages, where it is not yet. Once, before the processes that use it: a second one
 * would take the half-written file of the first for whole.
 */
export async function unpackBrowser(): Promise<void> {
  await settings()
}

/** A headless Chromium: the one that came with the packages, else the system's. */
export async function launchBrowser(): Promise<Browser> {
  return chromium.launch(await settings())
}

/** A tablet: its browser keeps what it holds in a folder, and opens with it again after it was closed. */
export async function launchTablet(folder: string, options: BrowserContextOptions): Promise<BrowserContext> {
  return chromium.launchPersistentContext(folder, { ...(await settings()), ...options })
}

async function settings() {
  const executablePath = await sparticuz.executablePath().catch((error: unknown) => {
    if (existsSync(ofTheSystem)) return ofTheSystem
    throw error
  })
  const own = sparticuz.args.filter((flag) => !unwanted.has(flag) && !flag.startsWith('--headless'))
  const flags = [
    ...own,
    '--no-sandbox',
    '--disable-gpu',
    '--disable-background-networking',
    '--disable-component-update',
  ]
  return { executablePath, args: flags, headless: true }
}
