import { execFile } from 'node:child_process'
import path from 'node:path'
import { promisify } from 'node:util'
import type { Page } from 'playwright-core'
import { projectRoot } from '../../packages/database/src/migration-files.ts'
import { demoSignIns } from './demo-sign-ins.ts'
import { fillQueue } from './fill-queue.ts'
import { launchBrowser } from '../support/browser.ts'
import { percentile, say } from './say.ts'

const slowdown = 4
const rounds = 5

/** First-load JavaScript of every page, compressed, as the last build made it. */
export async function measureFirstLoads(): Promise<void> {
  const script = path.join(projectRoot, 'apps/web/scripts/bundle-sizes.mjs')
  const { stdout } = await promisify(execFile)(process.execPath, [script]).catch((error: { stdout?: string }) => ({
    stdout: error.stdout ?? '',
  }))
  for (const line of stdout.trim().split('\n')) {
    const [, size, route] = /^\s*([\d.]+) kB\s+(\S+)/.exec(line) ?? []
    if (size && route)
      say(`First load of ${route}`, `${size} kB compressed`, route === '/l/[short]/bench' ? 'at most 200 kB' : 'none')
  }
}

/**
 * The Bench as a technician opens it on a middling tablet with at least fifty specimens waiting: 1024 × 768, the processor
 * slowed to a quarter. The largest paint of the page loaded anew, and the slowest answer to opening a row and typing a code.
 */
export async function measureBenchPage(url: string): Promise<void> {
  say('Bench, specimens and batches waiting', String(await fillQueue(url)), 'at least 50')
  const browser = await launchBrowser()
  try {
    const page = await browser.newPage({ viewport: { width: 1024, height: 768 } })
    const { shortName, technician, password } = demoSignIns()
    await page.goto(`${url}/sign-in`)
    await page.getByLabel('E-mail address').fill(technician)
    await page.getByLabel('Password', { exact: true }).fill(password)
    await page.getByRole('button', { name: 'Sign in' }).click()
    await page.waitForURL(/\/l\//)
    const session = await page.context().newCDPSession(page)
    await session.send('Emulation.setCPUThrottlingRate', { rate: slowdown })
    const paints: number[] = []
    const answers: number[] = []
    for (let round = 0; round < rounds; round += 1) {
      await page.goto(`${url}/l/${shortName}/bench`)
      await page.getByRole('heading', { level: 1 }).waitFor()
      await page.waitForLoadState('networkidle')
      paints.push(await page.evaluate<number>(paintOfPage))
      answers.push(await slowestAnswer(page))
    }
    say(
      `Bench, largest paint at ${slowdown} × slowdown`,
      `${percentile(paints, 0.5).toFixed(0)} ms (median of ${rounds})`,
      'under 1,500 ms',
    )
    say(
      `Bench, slowest interaction at ${slowdown} × slowdown`,
      `${percentile(answers, 0.5).toFixed(0)} ms (median of ${rounds})`,
      'under 200 ms',
    )
  } finally {
    await browser.close()
  }
}

// Texts, since they run in the page, whose types are not those of this process.
const paintOfPage = `new Promise((resolve) =>
  new PerformanceObserver((list) => resolve(list.getEntries().at(-1).startTime)).observe({
    type: 'largest-contentful-paint',
    buffered: true,
  }))`
const listenToAnswers = `{
  window.answered = []
  new PerformanceObserver((list) => window.answered.push(...list.getEntries().map(({ duration }) => duration)))
    .observe({ type: 'event', durationThreshold: 16 })
}`

/** Typing into the code field and tabbing on: from the key to the next frame, as the browser measures it. */
async function slowestAnswer(page: Page): Promise<number> {
  await page.evaluate(listenToAnswers)
  await page.getByRole('textbox').first().click()
  await page.keyboard.type('7KD2')
  await page.keyboard.press('Tab')
  await page.keyboard.press('Tab')
  await page.waitForTimeout(500)
  return Math.max(16, ...(await page.evaluate<number[]>('window.answered')))
}
