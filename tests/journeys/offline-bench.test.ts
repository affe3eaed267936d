import type { SpecimenRow } from '@curebook/contract/designs'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { launchTablet } from '../support/browser.ts'
import { neverAbsent, signIn } from '../support/journey.ts'
import { openTask, weighRack } from '../support/journey-bench.ts'
import { confirm } from '../support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../support/factories/design.ts'
import { makeInstrument } from '../support/factories/instrument.ts'
import type { TestLaboratory } from '../support/factories/laboratory.ts'
import { makeBenchMorning } from '../support/journey-bench-start.ts'
import { focused } from '../support/journey-accessibility.ts'
import { makeJourneyLaboratory, withServices } from '../support/journey-laboratory.ts'
import { startProduct, type Product } from '../support/journey-product.ts'
import { networkLine } from '../support/network-line.ts'
import { rowsOf } from '../support/journey-rows.ts'

/** A tablet where the network does not reach: what is entered there is at the server once, in order, with its own time. */

const morning = '2026-03-05T07:05:00Z'
let product: Product
let line: Awaited<ReturnType<typeof networkLine>>
let specimens: readonly SpecimenRow[]
let lab: TestLaboratory
let folder: string
let tablet: BrowserContext
let page: Page

beforeAll(async () => {
  product = await startProduct()
  await product.setClock(morning)
  const made = await makeJourneyLaboratory(product, { at: '2026-03-02T08:00:00Z', prepare: withDiscForTheOven })
  specimens = made.prepared
  line = await networkLine(product.url)
  folder = mkdtempSync(path.join(tmpdir(), 'curebook-tablet-'))
  await openTablet()
  await signIn({ page, context: tablet }, made.emails.technician, made.password)
})
afterAll(async () => {
  await tablet?.close()
  await line?.down()
  await product?.stop()
  if (folder !== undefined) rmSync(folder, { recursive: true, force: true })
})

/** The morning at the bench, and two discs cast an hour ago that wait for the oven. */
const withDiscForTheOven: typeof makeBenchMorning = async (testApp, made) => {
  lab = made
  const morningAtBench = await makeBenchMorning(testApp, lab)
  await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven, 60 °C' })
  const { specimens: fresh } = await makePlannedDesign(testApp, lab, aSeries({ contents: ['15', '16'] }), {
    name: 'Fresh',
  })
  const ids = fresh.map(({ testId }) => testId)
  await confirm(testApp, lab, ids, 'cast', 'start')
  return [...morningAtBench, ...fresh]
}

async function openTablet(at = morning) {
  tablet = await launchTablet(folder, {
    baseURL: line.url,
    viewport: { width: 1024, height: 768 },
    locale: 'en-GB',
    reducedMotion: 'reduce',
  })
  tablet.setDefaultTimeout(30_000)
  await tablet.addInitScript(neverAbsent)
  await tablet.clock.setFixedTime(at)
  page = tablet.pages()[0] ?? (await tablet.newPage())
}

const codeOf = (label: string) => specimens.find((row) => row.label === label)!.code
const testOf = (label: string) => specimens.find((row) => row.label === label)!.testId
const bench = () => page.goto('/l/tern-hollow/bench')
const rackRow = (label: string, on: Page = page) =>
  on
    .getByRole('table', { name: 'The rack' })
    .getByRole('row')
    .filter({ hasText: codeOf(label) })
const holdsWork = (on: Page = page) => on.getByText(/^Held on this tablet/).waitFor()
const noNetwork = (on: Page = page) => on.getByText(/^No network: this screen is as this tablet knew it/).waitFor()
const waiting = (count: number, on: Page = page) => on.getByText(`Waiting for network (${count})`).first().waitFor()
/** What the server holds of the weighings after abrasion, specimen by specimen. */
const weighings = (...labels: readonly string[]) =>
  rowsOf<{ label: string; typed: string; eventAt: Date; offset: string }>(
    product,
    `select t.label, r.typed, r.event_at as "eventAt", r.offset_ms::text as offset from reading r
       join test_event t on t.lab_id = r.lab_id and t.id = r.test_id
      where r.step_key = 'weigh-after' and t.label = any($1) order by t.label, r.received_at`,
    [labels],
  )

test('the network goes right after signing in: what nobody has opened yet opens, and the focus is seen where it begins', async () => {
  await bench()
  await page.getByRole('main').getByRole('link').first().waitFor()
  await page.evaluate<unknown>('navigator.serviceWorker.ready.then(() => true)')
  await line.down()
  await page.getByRole('button', { name: 'Change person' }).click()
  await page.getByRole('dialog', { name: 'Change person' }).waitFor()
  await expect.poll(() => page.evaluate(`document.activeElement.closest('[role=dialog]') !== null`)).toBe(true)
  expect(await focused(page)).toMatchObject({ seen: true, covered: false })
  await page.keyboard.press('Escape')
  await page.getByText('This tablet', { exact: true }).click()
  await page.getByText('Sound', { exact: false }).first().waitFor()
  await line.up()
})

test('the network goes in the middle of a rack: weighing goes on, through a reload and a restart of the tablet', async () => {
  await bench()
  await holdsWork()
  await openTask(page, 'Weigh after dry back (W2)')
  await weighRack(page, [{ code: codeOf('13-1'), typed: '773.7' }])
  await rackRow('13-1').getByText('Stored').waitFor()

  await line.down()
  await weighRack(page, [{ code: codeOf('13-2'), typed: '748.1' }])
  await waiting(1)
  await page.reload()
  await noNetwork()
  await rackRow('13-2').getByText('748.1').waitFor()
  await weighRack(page, [{ code: codeOf('12-1'), typed: '758.0' }])
  await waiting(2)

  await tablet.close()
  await openTablet('2026-03-05T07:25:00Z')
  // As an installed bench opens: at the front door, and there is no network to ask.
  await page.goto('/')
  await page.getByRole('heading', { level: 1, name: 'Bench' }).waitFor()
  await noNetwork()
  await waiting(2)
  await openTask(page, 'Weigh after dry back (W2)')
  await rackRow('12-1').getByText('758.0').waitFor()
  await weighRack(page, [{ code: codeOf('12-2'), typed: '764.0' }])
  await waiting(3)

  await product.setClock('2026-03-05T07:40:00Z')
  await tablet.clock.setFixedTime('2026-03-05T07:40:00Z')
  await line.up()
  for (const label of ['13-2', '12-1', '12-2']) await rackRow(label).getByText('Stored').waitFor({ timeout: 60_000 })
  const stored = await weighings('13-1', '13-2', '12-1', '12-2')
  expect(stored.map(({ label, typed, eventAt }) => [label, typed, eventAt.toISOString().slice(11, 16)])).toEqual([
    ['12-1', '758.0', '07:05'],
    ['12-2', '764.0', '07:25'],
    ['13-1', '773.7', '07:05'],
    ['13-2', '748.1', '07:05'],
  ])
})

test('a server that is gone in the middle of its answer has stored it, and is not told twice', async () => {
  line.swallow((request) => /^POST \/api\/labs\/[^ ]+\/readings /.test(request))
  await weighRack(page, [{ code: codeOf('12-3'), typed: '795.7' }])
  await expect.poll(async () => (await weighings('12-3')).length).toBe(1)
  await expect.poll(() => rackRow('12-3').innerText()).not.toContain('Stored')
  expect(line.swallow(undefined)).toBeGreaterThan(0)
  await rackRow('12-3').getByText('Stored').waitFor({ timeout: 60_000 })
  expect((await weighings('12-3')).map(({ typed }) => typed)).toEqual(['795.7'])
})

test('an act confirmed without a network waits in front of what follows it, in two tabs alike, and goes once', async () => {
  await product.setClock('2026-03-05T08:01:00Z')
  await tablet.clock.setFixedTime('2026-03-05T08:01:00Z')
  await bench()
  await page.getByRole('link').filter({ hasText: 'Abrade' }).first().waitFor()
  await holdsWork()
  const other = await tablet.newPage()
  await other.goto('/l/tern-hollow/bench')
  await holdsWork(other)
  await line.down()
  await other.goto(`/l/tern-hollow/bench/tests/${testOf('13-3')}`)
  await noNetwork(other)
  await page.reload()
  await noNetwork()
  await openTask(page, 'Abrade')
  await page.getByRole('button', { name: /^Confirm “Run started”/ }).click()
  await page
    .getByRole('listitem')
    .filter({ hasText: codeOf('13-3') })
    .getByText('Kept on this tablet')
    .waitFor()
  await other.getByText('Run started: kept on this tablet, not at the server yet').waitFor()
  await bench()
  await page.getByRole('main').getByRole('link').filter({ hasText: 'Weigh after cure (W1)' }).first().waitFor()
  await expect.poll(() => page.getByRole('main').getByRole('link').filter({ hasText: 'Abrade' }).count()).toBe(0)

  const before = posted('/step-events')
  await line.up()
  await other
    .getByText('Run started: kept on this tablet, not at the server yet')
    .waitFor({ state: 'detached', timeout: 60_000 })
  const starts = await rowsOf<{ at: Date }>(
    product,
    `select event_at as at from step_event where test_id = $1 and step_key = 'abrade' and kind = 'start'`,
    [testOf('13-3')],
  )
  expect(starts.map(({ at }) => at.toISOString())).toEqual(['2026-03-05T08:01:00.000Z'])
  expect(posted('/step-events') - before).toBe(1)
  await other.close()
})

test('a tablet whose clock is off says when it was by the clock of the laboratory', async () => {
  await tablet.clock.setFixedTime('2026-03-05T08:31:00Z')
  await bench()
  await openTask(page, 'Weigh after cure (W1)')
  await line.down()
  await weighRack(page, [{ code: codeOf('12-4'), typed: '760.4' }])
  await waiting(1)
  await line.up()
  await rackRow('12-4').getByText('Stored').waitFor({ timeout: 60_000 })
  const [row] = await rowsOf<{ offset: string; event: Date }>(
    product,
    `select offset_ms::text as offset, event_at as event from reading where test_id = $1 and typed = '760.4'`,
    [testOf('12-4')],
  )
  expect(row!.event.toISOString()).toBe('2026-03-05T08:31:00.000Z')
  expect(Math.round(Number(row!.offset) / 60_000)).toBe(-30)
})

test('what goes into an oven and comes out of it without a network is at the server at its own times, in that order', async () => {
  const at = async (time: string) => {
    await product.setClock(time)
    await tablet.clock.setFixedTime(time)
  }
  await at('2026-03-05T08:40:00Z')
  await page.goto('/l/tern-hollow/ovens')
  await holdsWork()
  await line.down()
  await page.reload()
  await noNetwork()
  await page.getByRole('button', { name: 'Put into OV-1' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel(codeOf('15-1')).check()
  await dialog.getByLabel('Temperature read, in °C').fill('60.4 g')
  await dialog.getByRole('button', { name: 'Confirm: they are in' }).click()
  await dialog.getByRole('alert').first().waitFor()
  await dialog.getByLabel('Temperature read, in °C').fill('60.4')
  await dialog.getByRole('button', { name: 'Confirm: they are in' }).click()
  const load = page.getByRole('region', { name: 'Load 1 in OV-1' })
  await load.getByText(codeOf('15-1')).waitFor()
  await page.getByText('Saved here, not yet sent').waitFor()
  await page.getByRole('button', { name: 'Enter a value for OV-1' }).click()
  // The first field has the focus: typed and kept without a touch.
  await expect.poll(async () => (await focused(page)).name).toBe('INPUT')
  await page.keyboard.type('warm')
  await page.keyboard.press('Enter')
  await dialog.getByRole('alert').first().waitFor()
  await dialog.getByLabel('Temperature, in °C').fill('61.2')
  await page.keyboard.press('Enter')
  await page.getByText('Log of OV-1: 61.2 °C').waitFor()

  await at('2026-03-05T09:20:00Z')
  await page.reload()
  await load.getByRole('button', { name: 'Take out of Load 1 in OV-1' }).click()
  await dialog.getByRole('button', { name: 'Confirm: 1 is out' }).click()
  await expect.poll(() => page.getByText('Saved here, not yet sent').count()).toBe(3)
  await load.getByText(codeOf('15-1')).waitFor({ state: 'detached' })
  await line.up()
  await expect.poll(() => page.getByText('Saved here, not yet sent').count(), { timeout: 60_000 }).toBe(0)
  expect(await rowsOf(product, 'select typed, observed_at as at from condition_value', [])).toEqual([
    { typed: '61.2', at: new Date('2026-03-05T08:40:00Z') },
  ])

  const acts = await rowsOf<{ kind: string; at: Date; oven: string }>(
    product,
    `select e.kind, e.event_at as at, l.place as oven from step_event e join load l on l.lab_id = e.lab_id and l.id = e.load_id
      where e.test_id = $1 and e.step_key = 'cure' order by e.received_at`,
    [testOf('15-1')],
  )
  expect(acts.map(({ kind, at: when, oven }) => [kind, when.toISOString(), oven])).toEqual([
    ['start', '2026-03-05T08:40:00.000Z', 'OV-1'],
    ['end', '2026-03-05T09:20:00.000Z', 'OV-1'],
  ])
  const temperatures = await rowsOf<{ typed: string }>(
    product,
    `select r.typed from reading r join load l on l.lab_id = r.lab_id and l.id = r.load_id where l.place = 'OV-1'`,
    [],
  )
  expect(temperatures).toEqual([{ typed: '60.4' }])
  expect([posted('/in'), posted('/out')]).toEqual([1, 1])
})

test('a put-in that another device was first with says so, and is taken out after one question, by keyboard', async () => {
  await page.goto('/l/tern-hollow/ovens')
  await page.getByRole('button', { name: 'Put into OV-1' }).waitFor()
  await line.down()
  await page.getByRole('button', { name: 'Put into OV-1' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel(codeOf('16-1')).check()
  await dialog.getByLabel('Temperature read, in °C').fill('60.9')
  await dialog.getByRole('button', { name: 'Confirm: they are in' }).click()
  await page.getByText('Saved here, not yet sent').waitFor()
  await withServices(product, '2026-03-05T09:21:00Z', (testApp) =>
    confirm(testApp, lab, [testOf('16-1')], 'cure', 'start'),
  )
  await line.up()
  await page.getByText('1 entry was not saved.').waitFor({ timeout: 60_000 })
  await page.getByRole('button', { name: 'Show them' }).click()
  // The button goes with the state that it was for: the focus stays in the dialog.
  await dialog.getByRole('button', { name: 'Send again: Put into OV-1' }).focus()
  await page.keyboard.press('Enter')
  await dialog.getByRole('button', { name: 'Send again: Put into OV-1' }).waitFor()
  expect(await page.evaluate(`document.activeElement.closest('[role=dialog]') !== null`)).toBe(true)
  const entry = `Put into OV-1: 16-1 (${codeOf('16-1')}); temperature 60.9`
  const takeOut = dialog.getByRole('button', { name: `Take out of the outbox: ${entry}` })
  await takeOut.focus()
  await page.keyboard.press('Enter')
  const question = dialog.getByRole('group', { name: `Take “${entry}”` })
  await question.waitFor()
  expect(await focused(page)).toMatchObject({ name: expect.stringContaining('Take “Put into OV-1'), seen: true })
  await page.keyboard.press('Escape')
  await question.waitFor({ state: 'detached' })
  // Left there, the focus is where it was.
  await expect.poll(async () => (await focused(page)).name).toContain('Take out of the outbox: Put into OV-1')
  await page.keyboard.press('Enter')
  await question.waitFor()
  await page.keyboard.press('Tab')
  await page.keyboard.press('Enter')
  await dialog.getByText('Everything that was entered here has been stored.').waitFor()
  await page.keyboard.press('Escape')
  const kept = await rowsOf<{ typed: string }>(product, `select typed from reading where typed = '60.9'`, [])
  expect(kept).toEqual([])
})

test('signing out clears what the tablet held, and nothing of it opens without a network', async () => {
  await bench()
  await holdsWork()
  // As text: the caches of a browser are unknown to the types of this side.
  const held = () =>
    page.evaluate<number>(`(async () => {
      const names = (await caches.keys()).filter((name) => name !== 'curebook-files')
      const kept = await Promise.all(names.map(async (name) => (await (await caches.open(name)).keys()).length))
      return kept.reduce((sum, count) => sum + count, 0)
    })()`)
  expect(await held()).toBeGreaterThan(5)
  await page.getByRole('button', { name: 'Sign out' }).click()
  await page.waitForURL(/\/sign-in/)
  expect(await held()).toBe(0)
  await line.down()
  await bench().catch(() => undefined)
  await page.getByRole('heading', { name: 'No network' }).waitFor()
  expect(await page.content()).not.toContain(codeOf('12-1'))
})

const posted = (ending: string) =>
  product.served.filter(({ method, path: asked }) => method === 'POST' && asked.endsWith(ending)).length
