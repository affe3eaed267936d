import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { chromium as playwright } from 'playwright-core'

/** @typedef {import('playwright-core').Page} Page */
/** @typedef {{ name: string, as: string, look?: { width?: number, height?: number, dark?: boolean }, go?: (page: Page) => Promise<unknown> }} Shot */

const finished = 'Micro-surfacing Type II, Skerry Edge'
const underWay = 'Verification at 12 % emulsion'
const panelTested = 'Micro-surfacing Type II, all contents meet'
const tablet = { width: 1024, height: 768 }

/** @param {string} part @param {string} [design] */
const partOfDesign =
  (part, design = finished) =>
  async (/** @type {Page} */ page) => {
    await page.goto(new URL('./designs', page.url()).href)
    await page.getByRole('link', { name: design }).click()
    await page.getByRole('link', { name: part, exact: true }).click()
  }
/** @param {string} name */
const screen = (name) => (/** @type {Page} */ page) =>
  page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name, exact: true }).click()

/** @type {Shot[]} */
const shots = [
  { name: 'bench', as: 'technician', look: tablet },
  {
    name: 'batch',
    as: 'technician',
    look: tablet,
    go: (page) => page.getByRole('link', { name: /^Weigh the components/ }).click(),
  },
  { name: 'bench-night', as: 'technician', look: { ...tablet, dark: true } },
  { name: 'schedule', as: 'manager' },
  { name: 'range', as: 'engineer', look: { height: 1500 }, go: partOfDesign('Results and range') },
  { name: 'series', as: 'engineer', go: partOfDesign('Series') },
  { name: 'review', as: 'engineer', look: { height: 1200 }, go: partOfDesign('Review') },
  { name: 'specimens', as: 'engineer', go: partOfDesign('Specimens', underWay) },
  {
    name: 'tests',
    as: 'engineer',
    look: { height: 1790 },
    // A set without the materials' properties, so that a chart is in the picture too.
    go: async (page) => {
      await partOfDesign('Tests', panelTested)(page)
      await page
        .getByLabel('Panel', { exact: true })
        .selectOption({ label: 'Micro-surfacing, AASHTO PP 83 with MP 28' })
    },
  },
  { name: 'report', as: 'engineer', go: partOfDesign('Report') },
  { name: 'ovens', as: 'technician', look: tablet, go: screen('Ovens and baths') },
  { name: 'ledger', as: 'auditor', go: screen('Ledger') },
  { name: 'client', as: 'client', look: { width: 390, height: 844 } },
]

/**
 * Signs in as the people of the demo and takes a picture of each screen.
 * @param {{ url: string, password: string, folder: string }} options
 */
export async function takeShots({ url, password, folder }) {
  const { default: packed } = await import('@sparticuz/chromium')
  const system = '/usr/bin/chromium'
  const executablePath = await packed.executablePath().catch((/** @type {unknown} */ error) => {
    if (existsSync(system)) return system
    throw error
  })
  const browser = await playwright.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--font-render-hinting=none'],
  })
  try {
    for (const { name, as, look = {}, go } of shots) {
      const { width = 1280, height = 860, dark = false } = look
      const context = await browser.newContext({
        baseURL: url,
        viewport: { width, height },
        colorScheme: dark ? 'dark' : 'light',
        reducedMotion: 'reduce',
        deviceScaleFactor: 1,
      })
      const page = await context.newPage()
      await page.goto('/sign-in')
      await page.getByLabel('E-mail address').fill(`${as}@ternhollow.example`)
      await page.getByLabel('Password', { exact: true }).fill(password)
      await page.getByRole('button', { name: 'Sign in' }).click()
      await page.waitForURL(/\/l\//)
      await still(page)
      await go?.(page)
      await still(page)
      await page.screenshot({ path: join(folder, `${name}.png`) })
      await context.close()
    }
  } finally {
    await browser.close()
  }
  return `${shots.length} pictures`
}

/** Waits until the heading stands and nothing has been loading for a second. @param {Page} page */
async function still(page) {
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  const loading = page.getByRole('status').filter({ hasText: /^Loading / })
  for (let quiet = 0; quiet < 5;) {
    await page.waitForTimeout(200)
    quiet = (await loading.count()) === 0 ? quiet + 1 : 0
  }
}
