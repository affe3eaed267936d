import type { SpecimenRow } from '@curebook/contract/designs'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../support/app.ts'
import { makeInstrument } from '../support/factories/instrument.ts'
import type { TestLaboratory } from '../support/factories/laboratory.ts'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { makeBenchMorning } from '../support/journey-bench-start.ts'
import { makeJourneyLaboratory, type JourneyLaboratory } from '../support/journey-laboratory.ts'
import { boxOf } from '../support/journey-looks.ts'
import { equip, forget, told } from '../support/journey-tablet.ts'

/** What a tablet does for whoever works with it: signals, warnings, the screen, the hand, and who has it. */

const bench = '/l/tern-hollow/bench'
let journey: Journey
let lab: JourneyLaboratory
let specimens: readonly SpecimenRow[]
let ada: Person
let page: Page

beforeAll(async () => {
  journey = await startJourney({ at: '2026-03-05T07:05:00Z' })
  const made = await makeJourneyLaboratory(journey.product, { at: '2026-03-02T08:00:00Z', prepare })
  lab = made
  specimens = made.prepared
  ada = await journey.arrive({ viewport: { width: 1024, height: 768 }, hasTouch: true })
  await equip(ada.context)
  page = ada.page
  await signIn(ada, made.emails.technician, made.password)
})
afterAll(() => journey?.close())

/** A morning at the bench, and a balance whose calibration has ended. */
async function prepare(testApp: TestApp, made: TestLaboratory) {
  const morning = await makeBenchMorning(testApp, made)
  const { id } = await makeInstrument(testApp, made, { code: 'BAL-2', kind: 'balance', name: 'Second balance' })
  await testApp.services.instruments.addCalibration(made.people.manager.actor, id, {
    id: newId(),
    doneOn: '2025-01-10',
    validUntil: '2026-01-10',
    certificate: 'K-17',
    passed: true,
  })
  return morning
}

const soaking = () => specimens.find(({ label }) => label === '13-3')!
const warning = () => page.getByRole('group', { name: 'A window closes soon' })

async function openBench() {
  await page.goto(bench)
  await page.getByRole('list', { name: 'Running windows' }).getByText('13-3').first().waitFor()
}
async function openSettings() {
  await openBench()
  await page.getByText('This tablet', { exact: true }).click()
  await page.getByRole('group', { name: 'Try it' }).waitFor()
}
async function scan(code: string) {
  await page.getByLabel('Code of a specimen or batch').fill(code)
  await page.keyboard.press('Enter')
}

/** How many tones were heard, and how many pulses felt. */
const counted = async () => {
  const { heard, felt } = await told(page)
  return [heard.length, felt.length]
}

test('a label found and a wrong one are seen, heard and felt otherwise; sound can be off', async () => {
  await openBench()
  await scan('ZZZZ')
  await page.getByText(/No specimen “ZZZZ” here/).waitFor()
  await expect.poll(counted).toEqual([2, 1])
  const wrong = await told(page)
  await forget(page)
  await scan(soaking().code)
  await page.getByRole('heading', { level: 1, name: /^13-3 / }).waitFor()
  await expect.poll(counted).toEqual([2, 1])
  const found = await told(page)
  expect(found.heard).not.toEqual(wrong.heard)
  expect(found.felt).not.toEqual(wrong.felt)

  await openSettings()
  await page.getByRole('checkbox', { name: /^Sound/ }).uncheck()
  await openBench()
  await scan('ZZZZ')
  await page.getByText(/No specimen “ZZZZ” here/).waitFor()
  await expect.poll(async () => (await told(page)).felt).toEqual(wrong.felt)
  expect((await told(page)).heard).toEqual([])
  await openSettings()
  await page.getByRole('checkbox', { name: /^Sound/ }).check()
})

test('before a window closes two warnings come, when one has set them, by sound, vibration, title and notification', async () => {
  await openSettings()
  const notes = page.getByRole('note', { name: 'Notifications' }).first()
  await notes.getByText(/^Notifications are not allowed yet/).waitFor()
  await notes.getByRole('button', { name: 'Allow notifications' }).click()
  await page.getByLabel('First warning before a window closes').selectOption({ label: '10 minutes' })
  await page.getByLabel('Last warning before a window closes').selectOption({ label: '2 minutes' })
  await openBench()
  for (const [before, at, left] of [
    ['08:04:58', '08:05:00', '10 minutes'],
    ['08:12:58', '08:13:00', '2 minutes'],
  ]) {
    await journey.clockTo(`2026-03-05T${before}Z`)
    await page
      .getByRole('timer')
      .filter({ hasText: /left|Closes in/ })
      .first()
      .waitFor()
    expect(await warning().count()).toBe(0)
    await forget(page)
    await journey.clockTo(`2026-03-05T${at}Z`)
    await warning()
      .getByText(/13-3: closes 08:15/)
      .waitFor()
    expect(await page.title()).toMatch(/^Closes soon: /)
    await expect.poll(counted).toEqual([3, 1])
    expect((await told(page)).notified).toEqual([expect.stringContaining(`13-3: the window closes in ${left}.`)])
    await warning().getByRole('button', { name: 'Seen' }).click()
    await warning().waitFor({ state: 'detached' })
    expect(await page.title()).not.toMatch(/^Closes soon: /)
  }
  await journey.clockTo('2026-03-05T07:30:00Z')
})

test('the screen stays on in the last minutes of a window, and a low battery is told', async () => {
  await openBench()
  expect((await told(page)).awake).toBe(0)
  await page.getByText('The battery is at 12 %: plug this tablet in.').first().waitFor()
  await journey.clockTo('2026-03-05T07:55:00Z')
  await expect.poll(async () => (await told(page)).awake).toBe(1)
  await page.evaluate('document.dispatchEvent(new Event("visibilitychange"))')
  await expect.poll(async () => (await told(page)).awake).toBe(1)
  await journey.clockTo('2026-03-05T07:05:00Z')
  await expect.poll(async () => (await told(page)).awake).toBe(0)
})

/** The rack, with this disc on the balance. */
async function take(label: string) {
  await openBench()
  const tasks = page.getByRole('main').getByRole('listitem').getByRole('link')
  await tasks.filter({ hasText: 'Weigh after dry back (W2)' }).first().click()
  await page.getByLabel('Code of the specimen on the balance').fill(specimens.find((row) => row.label === label)!.code)
  await page.keyboard.press('Enter')
  await page.locator('input[name=typed]:focus').waitFor()
}

test('for ten seconds what was entered is taken back at a touch, and stays in the record, struck through', async () => {
  await take('13-2')
  await page.keyboard.type('748.2')
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: 'Undo 748.2' }).tap()
  await page.getByText('748.2 is taken back and stays in the record, struck through.').first().waitFor()
  await page.goto(`${bench}/tests/${specimens.find(({ label }) => label === '13-2')!.testId}`)
  await page.locator('s').filter({ hasText: '748.2' }).first().waitFor()

  await take('13-2')
  await page.keyboard.type('748.1')
  await page.keyboard.press('Enter')
  const undo = page.getByRole('button', { name: 'Undo 748.1' })
  await undo.waitFor()
  await journey.clockTo('2026-03-05T07:05:11Z')
  await undo.waitFor({ state: 'hidden', timeout: 15_000 })
})

test('a balance out of calibration says since when, what that means, who can put it right, and where', async () => {
  await take('12-1')
  await page.getByLabel(/^Instrument/).selectOption({ label: 'BAL-2, Second balance' })
  const fault = page.getByRole('note').filter({ hasText: 'BAL-2' })
  expect(await fault.innerText()).toMatch(
    /calibration of BAL-2 ended on .*2026.*A manager can record its calibration: Marek Dunmore/,
  )
  expect(await fault.innerText()).toContain('is kept and does not count until released')
  await fault.getByRole('link', { name: 'Open BAL-2' }).waitFor()
})

test('the main button stands where the free thumb is: left, in the middle, or right', async () => {
  for (const [hand, at] of [
    ['Left', 0],
    ['Right', 1],
    ['In the middle', 0.5],
  ] as const) {
    await openSettings()
    await page.getByRole('radio', { name: hand, exact: true }).check()
    await take('12-1')
    const store = page.getByRole('button', { name: /^Store/ })
    const bar = await boxOf(store.locator('xpath=..'))
    const buttons = await Promise.all([store, page.getByRole('button', { name: 'Another specimen' })].map(boxOf))
    const from = Math.min(...buttons.map(({ x }) => x)) - bar.x
    const to = bar.x + bar.width - Math.max(...buttons.map(({ x, width }) => x + width))
    // What is left free on either side of the buttons.
    expect(Math.round((from / (from + to)) * 4) / 4, hand).toBe(at)
    expect(buttons[0]!.height).toBeGreaterThanOrEqual(56)
  }
})

test('another person takes the tablet in three taps, and keeps their own timers and entries', async () => {
  await page.goto('/l/tern-hollow/account')
  await page.getByLabel('New PIN').fill('2468')
  await page.getByLabel('Password', { exact: true }).last().fill(lab.password)
  await page.getByRole('button', { name: 'Set the PIN' }).click()
  await page.getByText('A PIN is set').waitFor()
  // What Ada entered has not reached the server when Bram takes the tablet.
  const held = '**/api/labs/*/tests/*/readings'
  await ada.context.route(held, (route) => route.abort())
  await take('13-1')
  await page.keyboard.type('773.7')
  await page.keyboard.press('Enter')
  await page.getByText('Waiting for network (1)').first().waitFor()

  await page.getByRole('button', { name: 'Change person' }).click()
  await page
    .getByRole('dialog')
    .getByText(/1 entry of Ada Lindqvist has not reached the server/)
    .waitFor()
  await page.getByRole('button', { name: 'Somebody else signs in' }).click()
  await page.getByLabel('E-mail address').fill(lab.emails.technician2)
  await page.getByRole('dialog').getByLabel('Password', { exact: true }).fill(lab.password)
  await page.keyboard.press('Enter')
  await page.getByText('Bram Osei, account').waitFor()
  await ada.context.unroute(held)
  await page.goto(bench)
  await page.getByText('Nothing waits for you.').waitFor()
  await page.getByText('1 entry of another person waits on this device.').waitFor()

  const stored = page.waitForResponse((answer) => answer.url().endsWith('/readings') && answer.status() === 201)
  const taps = ['Change person', 'Ada Lindqvist (AL)']
  for (const name of taps) await page.getByRole('button', { name }).tap()
  await page.getByLabel('PIN', { exact: true }).and(page.locator(':focus')).waitFor()
  await page.keyboard.type('2468')
  await page.getByRole('button', { name: 'Go on as Ada Lindqvist' }).tap()
  await page.getByText('Ada Lindqvist, account').waitFor()
  await page.getByRole('list', { name: 'Running windows' }).getByText('13-3').first().waitFor()
  expect(JSON.parse((await stored).request().postData()!)).toMatchObject({ typed: '773.7' })
})

test('no page had a fault', () => {
  expect(journey.faults.filter((fault) => !/ERR_FAILED/.test(fault))).toEqual([])
})
