import type { SpecimenRow } from '@curebook/contract/designs'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../support/app.ts'
import { aSeries, makePlannedDesign } from '../support/factories/design.ts'
import { makeInstrument } from '../support/factories/instrument.ts'
import type { TestLaboratory } from '../support/factories/laboratory.ts'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { openTask, weighBatches, weighRack } from '../support/journey-bench.ts'
import { makeBenchMorning } from '../support/journey-bench-start.ts'
import { makeJourneyLaboratory } from '../support/journey-laboratory.ts'
import { boxOf, gapBetween, isWhollySeen, pixelsOf, styleOf, textsOf, typeOf } from '../support/journey-looks.ts'

/** What a technician relies on at the bench, on a tablet held upright, each thing by itself. */

const upright = { width: 768, height: 1024 }
const bench = '/l/tern-hollow/bench'
let journey: Journey
let specimens: readonly SpecimenRow[], batches: readonly SpecimenRow[]
let ada: Person
let page: Page
let rack: string

beforeAll(async () => {
  journey = await startJourney({ at: '2026-03-05T07:05:00Z' })
  const made = await makeJourneyLaboratory(journey.product, { at: '2026-03-02T08:00:00Z', prepare })
  ;({ specimens, batches } = made.prepared)
  ada = await journey.arrive({ viewport: upright, hasTouch: true })
  page = ada.page
  await signIn(ada, made.emails.technician, made.password)
  await openTask(page, 'Weigh after dry back (W2)')
  rack = page.url()
})
afterAll(() => journey?.close())

/** A morning at the bench with a balance, and three batches of another design to be weighed in. */
async function prepare(testApp: TestApp, made: TestLaboratory) {
  const morning = await makeBenchMorning(testApp, made)
  const balance = { capacity: '3100', capacityUnit: 'g', resolution: '0.1' } as const
  await makeInstrument(testApp, made, { code: 'BAL-1', kind: 'balance', name: 'Bench balance', ...balance })
  const methods = [{ methodKey: 'wet-track-abrasion-1h', replicates: 3, spares: [] }]
  const further = await makePlannedDesign(testApp, made, aSeries({ contents: ['14'], methods }), { name: 'Further' })
  const testIds = further.specimens.map(({ testId }) => testId)
  const to = made.people.technician.actor.membershipId
  await testApp.services.schedule.assign(made.people.manager.actor, { testIds, to }, newId())
  return { specimens: morning, batches: further.specimens }
}

const rowOf = (label: string) => [...specimens, ...batches].find((row) => row.label === label)!
const codeOf = (label: string) => rowOf(label).code
const nameOf = (label: string) => `${label} (${codeOf(label)})`
const field = () => page.locator('input[name=typed]')
const store = () => page.getByRole('button', { name: /^Store/ })
const rackRow = (label: string) =>
  page
    .getByRole('table', { name: 'The rack' })
    .getByRole('row')
    .filter({ hasText: codeOf(label) })
const readingsPosted = () =>
  journey.asked.filter(({ method, path }) => method === 'POST' && path.endsWith('/readings')).length

/** The rack, with this specimen on the balance. */
async function take(label: string) {
  if (page.url() !== rack) await page.goto(rack)
  const other = page.getByRole('button', { name: 'Another specimen' })
  const code = page.getByLabel('Code of the specimen on the balance')
  await other.or(code).first().waitFor()
  if (await other.isVisible()) await other.click()
  await code.fill(codeOf(label))
  await page.keyboard.press('Enter')
  await field().and(page.locator(':focus')).waitFor()
}

test('a weight is plain text, which wheel and arrows leave alone', async () => {
  await take('13-1')
  const attributes = ['type', 'inputmode', 'autocomplete', 'maxlength']
  const said = await Promise.all(attributes.map((name) => field().getAttribute(name)))
  expect(said).toEqual(['text', 'decimal', 'off', null])
  await page.keyboard.type('773,70')
  const { x, y, width, height } = await boxOf(field())
  await page.mouse.move(x + width / 2, y + height / 2)
  await page.mouse.wheel(0, 240)
  for (const key of ['ArrowUp', 'ArrowDown', 'PageUp']) await page.keyboard.press(key)
  expect(await field().inputValue()).toBe('773,70')
})

test('either decimal sign is read, and echoed with the unit before it is stored; two signs are refused', async () => {
  await take('13-1')
  for (const typed of ['773,70', '773.70']) {
    await field().fill(typed)
    await page.getByText(/^Read as 773\.70\sg$/).waitFor()
  }
  const before = readingsPosted()
  await field().fill('1.773,70')
  await page.keyboard.press('Enter')
  await expect.poll(() => field().getAttribute('aria-invalid')).toBe('true')
  const error = page.locator(`[id="${(await field().getAttribute('aria-describedby'))!.split(' ')[0]}"]`)
  expect(await error.innerText()).toMatch(/sign/)
  expect(await field().inputValue()).toBe('1.773,70')
  expect(readingsPosted()).toBe(before)
})

test('the unit stands beside the field all the time, and in its name in words', async () => {
  await take('13-1')
  const unit = field().locator('xpath=following-sibling::*[text()="g"]')
  for (const typed of ['', '773.7']) {
    await field().fill(typed)
    expect(await unit.isVisible()).toBe(true)
    expect(gapBetween(await boxOf(field()), await boxOf(unit))).toBeLessThanOrEqual(1)
  }
  await page
    .getByLabel(`Mass of ${nameOf('13-1')}, in grams`)
    .and(field())
    .waitFor()
})

test('what is finer than the balance or odd is asked about, and what it cannot show is refused with both numbers', async () => {
  await take('13-1')
  const asked = page.getByRole('alert').filter({ has: page.getByRole('button', { name: 'Weigh again' }) })
  for (const [typed, words] of [
    ['773.123', /773\.123 g is finer than the instrument’s step of 0\.1 g/],
    ['77.3', /77\.3 g is outside the usual \d+ to \d+ g/],
  ] as const) {
    await field().fill(typed)
    await page.keyboard.press('Enter')
    await asked.filter({ hasText: words }).waitFor()
    await asked.getByRole('button', { name: 'Weigh again' }).click()
    await asked.waitFor({ state: 'detached' })
    expect(await field().inputValue()).toBe(typed)
  }
  await field().fill('7737')
  await page.keyboard.press('Enter')
  await page.getByText(/cannot be 7737 g: the instrument shows at most 3100 g/).waitFor()
})

test('one reading fills the screen: its specimen largest, the value and one main button in reach of a thumb', async () => {
  for (const screen of [upright, { width: 1024, height: 768 }]) {
    await page.setViewportSize(screen)
    await take('13-1')
    expect(await field().count()).toBe(1)
    const bar = store().locator('xpath=..')
    const main = await boxOf(store())
    expect(main.height).toBeGreaterThanOrEqual(56)
    expect(main.y + main.height / 2).toBeGreaterThan(screen.height / 2)
    expect(main.x).toBeGreaterThan(0)
    expect(main.x + main.width).toBeLessThan(screen.width)
    expect(main.y + main.height).toBeLessThan(screen.height)
    for (const other of await bar.getByRole('button').all())
      if ((await other.innerText()) !== (await store().innerText()))
        expect(gapBetween(main, await boxOf(other))).toBeGreaterThanOrEqual(16)
    const largest = await pixelsOf(field(), 'font-size')
    // What is read from two metres: the specimen on the balance, and what was stored last.
    const display = (await textsOf(page.locator('[data-rack-display]'))).map(({ text }) => text)
    expect(display.some((text) => text.includes(codeOf('13-1')))).toBe(true)
    const texts = (await textsOf(page.getByRole('main'))).filter(({ text }) => !display.includes(text))
    for (const { size } of texts) expect(size).toBeLessThanOrEqual(largest)
  }
  await page.setViewportSize(upright)
})

test('type reads at arm’s length: 18 px, the value 32, digits of one width, no two signs alike', async () => {
  await take('13-1')
  const small = (await textsOf(page.getByRole('main'))).filter(({ size }) => size < 18)
  expect(small).toEqual([])
  expect(await pixelsOf(field(), 'font-size')).toBeGreaterThanOrEqual(32)
  expect(await styleOf(field(), 'font-variant-numeric')).toContain('tabular-nums')
  const { alike, widths } = await typeOf(field())
  expect(alike).toEqual([])
  expect(new Set(widths.map((width) => width.toFixed(3))).size).toBe(1)
})

test('whose weight is asked for stays on the screen in large type, however far one scrolls', async () => {
  await take('13-1')
  const mark = page
    .getByRole('region', { name: 'Weighing' })
    .getByText(new RegExp(`${codeOf('13-1')}$`))
    .first()
  expect(await pixelsOf(mark, 'font-size')).toBeGreaterThanOrEqual(24)
  await page.setViewportSize({ width: 1024, height: 768 })
  await page.evaluate('document.querySelector("input[name=typed]").scrollIntoView()')
  expect(await page.evaluate<number>('window.scrollY')).toBeGreaterThan(100)
  expect(await isWhollySeen(page, mark)).toBe(true)
  await page.setViewportSize(upright)
})

test('what it weighed before stands beside the field, with the loss as one types', async () => {
  await take('13-1')
  await field().fill('773.7')
  await expect.poll(() => page.getByTestId('difference').innerText()).toMatch(/^6\.5\sg$/)
  expect(await page.getByRole('region', { name: 'Weighing' }).innerText()).toMatch(/780\.2\sg/)
})

test('what is half typed outlives a turn of the tablet and a reload', async () => {
  await take('13-1')
  await field().fill('77')
  await page.setViewportSize({ width: 1024, height: 768 })
  expect(await field().inputValue()).toBe('77')
  expect(await isWhollySeen(page, store())).toBe(true)
  await page.setViewportSize(upright)
  await page.reload()
  await take('13-1')
  expect(await field().inputValue()).toBe('77')
  await field().fill('')
})

test('a press acts when it is let go, not when it slides off; a second tap stores nothing twice', async () => {
  await take('13-1')
  await field().fill('773.7')
  const before = readingsPosted()
  const { x, y, width, height } = await boxOf(store())
  await page.mouse.move(x + width / 2, y + height / 2)
  await page.mouse.down()
  expect(readingsPosted()).toBe(before)
  await page.mouse.move(x + width / 2, y - 200)
  await page.mouse.up()
  expect(await field().inputValue()).toBe('773.7')
  await store().dblclick()
  await rackRow('13-1').getByText('Stored').waitFor()
  expect(await rackRow('13-1').innerText()).toContain('773.7')
  expect(readingsPosted()).toBe(before + 1)
})

test('the act that ends a specimen asks in another place than the first touch', async () => {
  await page.goto(`${bench}/tests/${rowOf('13-3').testId}`)
  const first = page.getByRole('button', { name: `Void ${nameOf('13-3')}` })
  await first.scrollIntoViewIfNeeded()
  const touched = await boxOf(first)
  await first.tap()
  const second = page.getByRole('dialog').getByRole('button', { name: `Void ${nameOf('13-3')}` })
  expect(gapBetween(touched, await boxOf(second))).toBeGreaterThan(0)
  await second.tap()
  await page.getByRole('dialog').getByText('Write what happened.').first().waitFor()
  await page.keyboard.press('Escape')
})

test('a scanned label opens its due step; a wrong one says which is expected', async () => {
  await page.goto(bench)
  await page.getByRole('list', { name: 'Running windows' }).waitFor()
  await page.getByLabel('Code of a specimen or batch').and(page.locator(':focus')).waitFor()
  await page.keyboard.type('ZZZZ')
  await page.keyboard.press('Enter')
  await page.getByText(/No specimen “ZZZZ” here\..*Expected now: \d+-\d/).waitFor()
  await page.keyboard.type(codeOf('13-3'))
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { level: 1, name: nameOf('13-3') }).waitFor()
  await page.getByRole('region', { name: 'Abrade' }).waitFor()
  await page.goto(rack)
  const onBalance = page.getByLabel('Code of the specimen on the balance')
  await onBalance.and(page.locator(':focus')).waitFor()
  await page.keyboard.type(codeOf('14-1'))
  await page.keyboard.press('Enter')
  await page.getByText(/is not in this rack\. Expected next: \d+-\d/).waitFor()
})

test('windows that run stand in one strip on every bench screen, and are right after the page was closed', async () => {
  const running = () => page.getByRole('list', { name: 'Running windows' })
  const soak = () => running().getByRole('listitem').filter({ hasText: '13-3' })
  for (const address of [bench, rack, `${bench}/tests/${rowOf('12-1').testId}`]) {
    await page.goto(address)
    await soak().getByText('Opens in 55:00').waitFor()
    await soak()
      .getByText(/opens 08:00/)
      .waitFor()
    await soak()
      .getByText(/closes 08:15/)
      .waitFor()
  }
  const timers = running().getByRole('timer')
  for (const timer of await timers.all()) expect(await timer.getAttribute('aria-live')).toBe('off')
  await page.close()
  await journey.clockTo('2026-03-05T07:50:00Z')
  page = await ada.context.newPage()
  await page.goto(bench)
  await soak().getByText('Opens in 10:00').waitFor()
  await journey.clockTo('2026-03-05T07:52:00Z')
  await soak().getByText('Opens in 08:00').waitFor()
})

test('a tablet whose clock is off is told so, and shows the laboratory’s time all the same', async () => {
  const soak = page.getByRole('list', { name: 'Running windows' }).getByRole('listitem').filter({ hasText: '13-3' })
  const told = page.getByText(/^This device’s clock is 01:30 ahead of the laboratory’s\./)
  await ada.context.clock.setFixedTime('2026-03-05T07:53:30Z')
  await page.reload()
  await told.waitFor()
  await soak.getByText('Opens in 08:00').waitFor()
  await ada.context.clock.setFixedTime('2026-03-05T07:52:00Z')
  await page.reload()
  await soak.getByText('Opens in 08:00').waitFor()
  expect(await told.count()).toBe(0)
})

test('cautions stand before the button, in sight on a tablet without scrolling', async () => {
  const steps = `${bench}/steps?methodKey=wet-track-abrasion-1h&stepKey=abrade&act=start`
  for (const [address, main] of [
    [`${bench}/tests/${rowOf('14-1').batchTestId}`, /^Store/],
    [`${bench}/tests/${rowOf('13-3').testId}`, /^Confirm/],
    [steps, /^Confirm/],
  ] as const) {
    await page.goto(address)
    const caution = page.getByRole('note', { name: 'Cautions' }).first()
    const button = page.getByRole('button', { name: main }).first()
    await button.waitFor()
    await caution.waitFor()
    expect(await isWhollySeen(page, caution), address).toBe(true)
    const [above, below] = [await boxOf(caution), await boxOf(button)]
    expect(above.y + above.height, address).toBeLessThanOrEqual(below.y)
  }
})

test('over an on-screen keyboard field, unit, echo and main button stay in sight', async () => {
  await take('13-2')
  await page.setViewportSize({ width: 768, height: 380 })
  await page.keyboard.type('748.1')
  const echo = page.getByText(/^Read as 748\.1\sg$/)
  await echo.waitFor()
  for (const part of [field(), echo, store()])
    await expect.poll(() => isWhollySeen(page, part), { message: String(part) }).toBe(true)
  await field().fill('')
  await page.setViewportSize(upright)
})

test('fifteen readings of three batches by keyboard alone, Enter going on to the next each time', async () => {
  await page.goto(`${bench}/tests/${rowOf('14-1').batchTestId}`)
  const before = readingsPosted()
  const target = { aggregate: '800.0', filler: '8.00', additive: '1.60', water: '80.0', emulsion: '112.0' }
  const typed = await weighBatches(page, 3, { of: () => target, before: () => Promise.resolve() })
  expect(typed).toHaveLength(15)
  await expect.poll(readingsPosted).toBe(before + 15)
})

test('without network one goes on: a bar counts what is not sent, and each goes once', async () => {
  await take('12-1')
  await page.getByRole('button', { name: 'Another specimen' }).click()
  await ada.context.setOffline(true)
  const weights = { '12-1': '758.0', '12-2': '764.0', '12-3': '795.7' }
  await weighRack(
    page,
    Object.entries(weights).map(([label, typed]) => ({ code: codeOf(label), typed })),
  )
  await page.getByRole('status').filter({ hasText: 'Waiting for network (3)' }).first().waitFor()
  for (const label of Object.keys(weights))
    await rackRow(label)
      .getByText(/Queued|Waiting/)
      .waitFor()
  const before = journey.asked.length
  await ada.context.setOffline(false)
  for (const label of Object.keys(weights)) await rackRow(label).getByText('Stored').waitFor()
  const sent = journey.asked
    .slice(before)
    .filter(({ method, path, status }) => method === 'POST' && path.endsWith('/readings') && status === 201)
    .map(({ body }) => (JSON.parse(body!) as { typed: string }).typed)
  expect(sent.toSorted()).toEqual(Object.values(weights))
})

test('no page had a fault', () => {
  expect(journey.faults.filter((fault) => !/ERR_INTERNET_DISCONNECTED/.test(fault))).toEqual([])
})
