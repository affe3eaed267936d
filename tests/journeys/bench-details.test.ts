import type { SpecimenRow } from '@curebook/contract/designs'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { confirmActs, openTask, weighRack } from '../support/journey-bench.ts'
import { makeBenchMorning } from '../support/journey-bench-start.ts'
import { rowsOf } from '../support/journey-rows.ts'
import { makeJourneyLaboratory } from '../support/journey-laboratory.ts'

/** What goes otherwise at the bench: slips, late runs, a lost specimen, a lost network, two people at once. */

const readings = '**/api/labs/*/tests/*/readings'
let journey: Journey
let ada: Person, bram: Person, manager: Person
let specimens: readonly SpecimenRow[]

beforeAll(async () => {
  journey = await startJourney({ at: '2026-03-05T07:05:00Z' })
  const made = await makeJourneyLaboratory(journey.product, { at: '2026-03-02T08:00:00Z', prepare: makeBenchMorning })
  specimens = made.prepared
  ada = await journey.arrive({ viewport: { width: 1024, height: 768 }, hasTouch: true })
  await signIn(ada, made.emails.technician, made.password)
  bram = await journey.arrive({ viewport: { width: 1024, height: 768 } })
  await signIn(bram, made.emails.technician2, made.password)
  manager = await journey.arrive()
  await signIn(manager, made.emails.manager, made.password)
  await openTask(ada.page, 'Weigh after dry back (W2)')
})
afterAll(() => journey?.close())

const codeOf = (label: string) => specimens.find((row) => row.label === label)!.code
const testOf = (label: string) => specimens.find((row) => row.label === label)!.testId
const nameOf = (label: string) => `${label} (${codeOf(label)})`
const field = (page: Page) => page.locator('input[name=typed]')
const rackRow = (page: Page, label: string) =>
  page
    .getByRole('table', { name: 'The rack' })
    .getByRole('row')
    .filter({ hasText: codeOf(label) })

async function take(page: Page, label: string) {
  await page.getByLabel('Code of the specimen on the balance').fill(codeOf(label))
  await page.keyboard.press('Enter')
  await page.getByLabel(`Mass of ${nameOf(label)}, in grams`).waitFor()
}

test('a wrong unit is refused beside the field, and what was typed stays', async () => {
  const { page } = ada
  await take(page, '13-1')
  await page.keyboard.type('773.7 mm')
  await page.keyboard.press('Enter')
  await expect.poll(() => field(page).getAttribute('aria-invalid')).toBe('true')
  expect(await field(page).inputValue()).toBe('773.7 mm')
  const error = page.locator(`[id="${(await field(page).getAttribute('aria-describedby'))!.split(' ')[0]}"]`)
  expect(await error.innerText()).toContain('mm')
  expect(readingsPosted()).toBe(0)

  await page.keyboard.press('Control+A')
  await page.keyboard.type('773,7 g')
  await page.keyboard.press('Enter')
  await rackRow(page, '13-1').getByText('Stored').waitFor()
  expect(await rackRow(page, '13-1').innerText()).toContain('773,7 g')
})

test('a slip is corrected in two taps, and the old value stays, struck through', async () => {
  const { page } = ada
  await weighRack(page, [{ code: codeOf('13-2'), typed: '748.2' }])
  await rackRow(page, '13-2').getByText('Stored').waitFor()
  await rackRow(page, '13-2').getByRole('button', { name: `Correct 13-2` }).tap()
  await field(page).fill('748.1')
  await page.getByRole('button', { name: 'Mistyped' }).tap()
  await expect.poll(() => rackRow(page, '13-2').innerText()).toContain('748.1')
  await manager.page.goto(`${new URL(page.url()).pathname.replace(/\/rack$/, '')}/tests/${testOf('13-2')}`)
  await manager.page.locator('s, del').filter({ hasText: '748.2' }).first().waitFor()
})

test('a weight that a balance types goes into the correction, wherever the focus stands, and waits for its reason', async () => {
  const { page } = ada
  await rackRow(page, '13-2').getByRole('button', { name: `Correct 13-2` }).tap()
  await page.getByRole('button', { name: 'Mistyped' }).focus()
  // As text: the keys come faster than this side can send them.
  await page.evaluate(`for (const key of [...'  747.9 g', 'Enter'])
    document.activeElement.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }))`)
  await expect.poll(() => field(page).inputValue()).toMatch(/747\.9 g/)
  expect(await rackRow(page, '13-2').innerText()).toContain('748.1')
  await page.getByRole('button', { name: 'Weighed again' }).tap()
  await expect.poll(() => rackRow(page, '13-2').innerText()).toContain('747.9')
  await rackRow(page, '13-2').getByText('Stored').waitFor()
  const [stands] = await rowsOf<{ from: string }>(
    journey.product,
    `select event_from as "from" from reading where test_id = $1 and typed = '747.9 g'`,
    [testOf('13-2')],
  )
  expect(stands).toEqual({ from: 'instrument' })
})

test('two discs exchanged on the balance are suspected, and transposed digits too', async () => {
  const { page } = ada
  await weighRack(page, [{ code: codeOf('12-1'), typed: '758.0' }])
  await weighRack(page, [{ code: codeOf('12-2'), typed: '795.7' }])
  await weighRack(page, [{ code: codeOf('12-3'), typed: '764.0' }])
  const asked = page
    .getByRole('alert')
    .filter({ hasText: codeOf('12-2') })
    .filter({ hasText: codeOf('12-3') })
  await asked.first().waitFor()
  expect(await asked.first().innerText()).toMatch(/exchanged/)
  for (const [label, right] of [
    ['12-2', '764.0'],
    ['12-3', '795.7'],
  ] as const) {
    await rackRow(page, label)
      .getByRole('button', { name: `Correct ${label}` })
      .click()
    await field(page).fill(right)
    await page.getByRole('button', { name: 'Was another specimen' }).click()
    await expect.poll(() => rackRow(page, label).innerText()).toContain(right)
  }
  await expect.poll(() => page.getByRole('alert').filter({ hasText: 'exchanged' }).count()).toBe(0)
})

test('a run begun too late is missed, and the manager decides with a reason', async () => {
  const { page } = ada
  await journey.clockTo('2026-03-05T08:20:00Z')
  await openTask(page, 'Abrade')
  await confirmActs(page, 'Run started', [codeOf('13-3')])
  await manager.page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Quality' }).click()
  await manager.page.getByRole('button', { name: /^Decide: / }).click()
  const dialog = manager.page.getByRole('dialog', { name: 'Decide a deviation' })
  await dialog.getByRole('radio', { name: /^Accept/ }).check()
  await dialog.getByRole('button', { name: 'Accept with this reason' }).click()
  await dialog.getByText('Write the reason.').first().waitFor()
  await dialog.getByRole('textbox', { name: 'Reason' }).fill('A longer soak can only raise the loss.')
  await dialog.getByRole('button', { name: 'Accept with this reason' }).click()
  await dialog.waitFor({ state: 'detached' })
  await manager.page.getByText('Nothing waits for a decision.').waitFor()
})

test('a lost disc is voided with a reason, and a spare takes its place', async () => {
  const { page } = ada
  await page.goto(`/l/tern-hollow/bench/tests/${testOf('12-1')}`)
  await page.getByRole('button', { name: `Void ${nameOf('12-1')}` }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel('What happened').fill('Felt tore at the clamp.')
  await dialog.getByRole('button', { name: `Void ${nameOf('12-1')}` }).click()
  await dialog.waitFor({ state: 'detached' })
  await page.getByRole('button', { name: `Put a spare in the place of ${nameOf('12-1')}` }).click()
  const spare = page.getByRole('dialog')
  await spare.getByLabel('Code of the spare').fill(codeOf('13-3'))
  await spare.getByLabel('Reason').fill('Same content.')
  await spare.getByRole('button', { name: /^Put it in the place of/ }).click()
  await expect.poll(() => spare.getByLabel('Code of the spare').getAttribute('aria-invalid')).toBe('true')
  await spare.getByLabel('Code of the spare').fill(codeOf('12-4'))
  await page.keyboard.press('Enter')
  await spare.waitFor({ state: 'detached' })
  await page.getByText('Replaced by a spare').waitFor()
})

test('a reload between Enter and the answer loses no reading', async () => {
  const { page, context } = ada
  await context.route(readings, (route) => route.abort())
  await page.goto('/l/tern-hollow/bench')
  await openTask(page, 'Weigh after cure (W1)')
  await weighRack(page, [{ code: codeOf('12-4'), typed: '760.4' }])
  await rackRow(page, '12-4')
    .getByText(/Waiting|Queued/)
    .waitFor()
  await page.getByText('Waiting for network (1)').first().waitFor()
  await page.reload()
  await page.getByText('Waiting for network (1)').first().waitFor()
  await rackRow(page, '12-4').getByText('760.4').waitFor()

  await context.unroute(readings)
  await context.route(
    readings,
    (route) => route.fulfill({ status: 500, contentType: 'application/problem+json', body: '{}' }),
    { times: 1 },
  )
  const stored = page.waitForResponse((answer) => answer.url().endsWith('/readings') && answer.status() === 201)
  await page.reload()
  await stored
  await rackRow(page, '12-4').getByText('Stored').waitFor()
  expect(await rackRow(page, '12-4').innerText()).toContain('760.4')
})

test('what another person does shows by itself, and nothing is asked for while nothing changes', async () => {
  const { page } = bram
  await page.goto(ada.page.url())
  await rackRow(page, '12-4').getByText('760.4').waitFor()
  await page.waitForLoadState('load')
  await quiet(page)
  const before = journey.asked.length
  await page.waitForTimeout(3_000)
  expect(journey.asked.slice(before)).toEqual([])

  await rackRow(ada.page, '12-4').getByRole('button', { name: 'Correct 12-4' }).click()
  await field(ada.page).fill('760.5')
  await ada.page.getByRole('button', { name: 'Weighed again' }).click()
  await rackRow(page, '12-4').getByText('760.5').waitFor()
})

test('two people on one step: the second sees both values and chooses, and nothing is overwritten', async () => {
  await journey.clockTo('2026-03-06T07:00:00Z')
  const [one, other] = [ada.page, bram.page]
  for (const [moment, step, act] of [
    ['2026-03-05T09:00:00Z', 'Dry back', 'In the oven'],
    ['2026-03-06T02:00:00Z', 'Dry back', 'Out of the oven'],
    ['2026-03-06T03:00:00Z', 'Cool down', 'Cooled'],
  ] as const) {
    await journey.clockTo(moment)
    await one.goto('/l/tern-hollow/bench')
    await openTask(one, step, act)
    await confirmActs(one, act, [codeOf('13-3')])
  }
  await journey.clockTo('2026-03-06T03:10:00Z')
  for (const page of [one, other]) {
    await page.goto(`/l/tern-hollow/bench/tests/${testOf('13-3')}`)
    await page.getByLabel(`Mass of ${nameOf('13-3')}, in grams`).waitFor()
  }
  await bram.context.setOffline(true)
  await other.keyboard.type('747.7')
  await other.keyboard.press('Enter')
  await other.getByText('Waiting for network (1)').first().waitFor()
  await one.keyboard.type('747.9')
  await one.keyboard.press('Enter')
  await one
    .getByText(/^Saved /)
    .first()
    .waitFor()
  await bram.context.setOffline(false)

  const conflict = other.getByRole('alert').filter({ hasText: 'Two readings of' })
  await conflict.first().waitFor()
  const said = await conflict.first().innerText()
  for (const part of ['747.9', '747.7', 'Ada Lindqvist', 'Bram Osei']) expect(said).toContain(part)
  await other.getByRole('button', { name: 'Keep theirs: 747.9' }).click()
  await conflict.first().waitFor({ state: 'detached' })
  await other.getByRole('main').getByText('747.9').first().waitFor()
})

test('no page had a fault', () => {
  expect(journey.faults.filter((fault) => !/ERR_FAILED|ERR_INTERNET_DISCONNECTED|status of 500/.test(fault))).toEqual(
    [],
  )
})

const readingsPosted = () =>
  journey.asked.filter(({ method, path }) => method === 'POST' && path.endsWith('/readings')).length

/** Waits until no request of the page is on its way but the stream of live events. */
async function quiet(page: Page) {
  await page.waitForLoadState('domcontentloaded')
  let last = -1
  await expect
    .poll(async () => {
      const same = last === journey.asked.length
      last = journey.asked.length
      await page.waitForTimeout(500)
      return same
    })
    .toBe(true)
}
