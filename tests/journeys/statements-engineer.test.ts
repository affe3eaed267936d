import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../support/app.ts'
import { timeNow } from '../support/factories/bench.ts'
import { aRecommendation } from '../support/factories/tested-design.ts'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { focused, settled } from '../support/journey-accessibility.ts'
import { sign } from '../support/journey-approval.ts'
import { cloneDemo, demoNow as now, demoPassword as password, type Demo } from '../support/journey-demo.ts'
import { withServices } from '../support/journey-laboratory.ts'
import { boxOf, gapBetween, isWhollySeen } from '../support/journey-looks.ts'

/** What an engineer relies on: curves, workings, comparison, review and signature of the demonstration's design. */

const lab = '/l/ternhollow'
let journey: Journey
let engineer: Person, manager: Person
let page: Page
let design: string

beforeAll(async () => {
  const { clone, demo } = await cloneDemo()
  journey = await startJourney({ at: now, clone })
  design = await withServices(journey.product, now, (testApp) => prepare(testApp, demo))
  await journey.clockTo('2026-11-25T10:30:00Z')
  engineer = await arriveAs('engineer')
  page = engineer.page
  manager = await arriveAs('manager')
})
afterAll(() => journey?.close())

async function arriveAs(name: string): Promise<Person> {
  const person = await journey.arrive()
  await signIn(person, `${name}@ternhollow.example`, password)
  await settled(person.page)
  return person
}

/** The reported design, with a second revision in review: a disc was voided for it, and one point waits for its word. */
async function prepare(testApp: TestApp, { people, designId }: Demo): Promise<string> {
  const { services } = testApp
  const { items } = await services.designs.specimens(people.engineer, designId)
  const disc = items.find(({ label, methodKey }) => label === '14-3' && methodKey === 'wet-track-abrasion-1h')!
  const reason = 'Edge broken before the last weighing'
  await services.bench.ending.void(people.technician, disc.testId, { id: newId(), reason, time: timeNow(testApp) })
  await services.designs.startRevision(people.engineer, designId, {
    id: newId(),
    reason: 'Another filler in the field',
  })
  await services.recommendations.recommend(people.engineer, designId, aRecommendation())
  const { points } = await services.review.read(people.engineer, designId)
  const waiting = points.filter(({ acknowledged, blocking }) => acknowledged === null && !blocking)
  const words = waiting.slice(1).map(({ key }) => ({ id: newId(), pointKey: key, word: 'Seen' }))
  await services.review.acknowledgeEach(people.engineer, designId, words)
  return designId
}

async function openTab(tab: string, of: Page = page) {
  await of.goto(`${lab}/designs/${design}?tab=${tab}`)
  await settled(of)
}
const charts = () => page.getByRole('figure')
/** Attributes of what is drawn, as the page holds them. */
const attributesOf = async (found: Locator, name: string) =>
  Promise.all((await found.all()).map((one) => one.getAttribute(name)))
const approve = () => page.getByRole('button', { name: /^Approve revision 2$/ })

test('one look holds what is asked, the decisive numbers with limits and margins, what is missing, and the acts', async () => {
  await openTab('review')
  const short = page.getByRole('table', { name: 'What was judged, in short' })
  await short.waitFor()
  const heads = (await short.getByRole('columnheader').allInnerTexts()).join('|')
  expect(heads).toMatch(/^Property.*\|Value\|Limit\|Margin\|Verdict$/)
  const missing = page.getByRole('region', { name: 'Missing or out' })
  expect(await missing.getByRole('listitem').count()).toBeGreaterThan(0)
  const asked = page.getByRole('heading', { level: 2, name: 'What is asked' })
  for (const part of [asked, short, missing, approve(), page.getByRole('button', { name: 'Send revision 2 back' })])
    expect(await isWhollySeen(page, part), String(part)).toBe(true)
})

test('approving is off until every point has its word and the work is checked, and says why', async () => {
  await openTab('review')
  const points = page.getByRole('region', { name: 'To be seen before signing' })
  await points.getByText(/Nothing blocks, 1 waits/).waitFor()
  expect(await approve().isDisabled()).toBe(true)
  const why = page.locator(`[id="${await approve().getAttribute('aria-describedby')}"]`)
  expect((await why.innerText()).length).toBeGreaterThan(20)
  await points.locator('form').getByRole('textbox').fill('Seen on the plate; it stands')
  await points.locator('form').getByRole('button').click()
  await points.getByText(/Nothing blocks, none waits/).waitFor()
  expect(await approve().isDisabled()).toBe(true)

  await openTab('review', manager.page)
  const check = { act: 'Check revision 2', confirm: 'Sign: revision 2 is checked', password }
  await sign(manager.page, check)
  await expect.poll(() => approve().isEnabled()).toBe(true)
})

test('a signature asks for the password, and shows what it means and exactly what is signed', async () => {
  await openTab('review')
  await approve().click()
  const dialog = page.getByRole('dialog', { name: 'Approve revision 2' })
  const said = await dialog.innerText()
  expect(said).toMatch(/Your signature says: I approve/)
  expect(said).toMatch(/exactly revision 2 of Micro-surfacing/)
  expect(said.replaceAll(/\s/g, '')).toMatch(/[0-9a-f]{64}/)
  await dialog.getByRole('button', { name: 'Sign: revision 2 is approved' }).click()
  await dialog.getByText('Enter your password').first().waitFor()
  await page.keyboard.press('Escape')
})

test('what is sent back needs a reason and a named point, and stands on the engineer’s first screen', async () => {
  await openTab('review', manager.page)
  await manager.page.getByRole('button', { name: 'Send revision 2 back' }).click()
  const dialog = manager.page.getByRole('dialog', { name: 'Send revision 2 back' })
  await dialog.getByRole('button', { name: 'Send revision 2 back' }).click()
  await dialog.getByText('Say what has to be put right').first().waitFor()
  await dialog.getByText('Name at least one point').first().waitFor()
  const reason = 'The tolerance is wider than the field can hold.'
  await dialog.getByLabel('What has to be put right').fill(reason)
  await dialog.getByRole('checkbox', { name: 'The recommendation' }).check()
  await dialog.getByRole('button', { name: 'Send revision 2 back' }).click()
  await dialog.waitFor({ state: 'detached' })

  const { page: first } = await arriveAs('engineer')
  await first.waitForURL(/\/designs$/)
  const told = first.getByRole('region', { name: /sent back by/ })
  await told.getByText(reason).waitFor()
  await told.getByText('The recommendation').waitFor()
})

test('a number opens its working: links to its readings, how, source, all digits, and how it was rounded', async () => {
  await openTab('results')
  await page.getByRole('button', { name: 'Calculation of the end: Minimum' }).click()
  const dialog = page.getByRole('dialog')
  const said = await dialog.innerText()
  const rounded = /Reported as ([\d.]+)\s[^:]+: ([\d.]+), cut to ([\d.]+) where it is shown, halves to even\./
  expect(said).toMatch(rounded)
  const [, shown = '', full = '', step = ''] = rounded.exec(said)!
  expect(full.length).toBeGreaterThan(shown.length)
  expect(Math.abs(Number(shown) - Number(full))).toBeLessThanOrEqual(Number(step) / 2)
  expect(await dialog.getByRole('cell').filter({ hasText: full }).count()).toBeGreaterThan(0)
  await page.keyboard.press('Escape')
  const range = page.getByRole('region', { name: 'Acceptable range' })
  expect(await range.innerText()).toMatch(/compared/)

  const results = page.getByRole('table', { name: /results/ })
  await results
    .getByRole('button', { name: /^Calculation of / })
    .first()
    .click()
  for (const head of ['Symbol', 'How', 'Value', 'Unit', 'Source', 'From'])
    await dialog.getByRole('columnheader', { name: head, exact: true }).waitFor()
  await dialog.getByText(/^Computed by \S/).waitFor()
  const link = dialog.getByRole('link', { name: /^Readings of / }).first()
  expect(await link.getAttribute('href')).toMatch(/\/bench\/tests\//)
  await page.keyboard.press('Escape')
})

test('a verdict is a word with its icon, and a margin in the unit of the limit', async () => {
  await openTab('results')
  const panel = page.getByRole('table', { name: 'Panel' })
  const passed = panel
    .getByRole('row')
    .filter({ has: page.locator('[data-status=pass]') })
    .filter({ hasText: 'g/m²' })
  expect(await passed.count()).toBeGreaterThan(0)
  for (const mark of await panel.locator('[data-status]').all()) {
    expect((await mark.innerText()).trim()).not.toBe('')
    expect(await mark.locator('svg').count()).toBe(1)
  }
  const heads = await panel.getByRole('columnheader').allInnerTexts()
  const margin = passed
    .first()
    .locator('th, td')
    .nth(heads.findIndex((head) => head.trim() === 'Margin'))
  expect(await margin.innerText()).toMatch(/^[+−-]?\d+\.\d\sg\/m²$/)
})

test('what does not count stays in chart and table, crossed out, with reason and person, and both means are there', async () => {
  await openTab('results')
  const points = page.getByRole('table', { name: /results/ })
  const out = points.getByRole('row').filter({ has: page.locator('[data-status=void]') })
  expect(await out.first().innerText()).toMatch(/does not count: .+\([^)]+\)/)
  await charts()
    .getByRole('button', { name: /does not count/ })
    .first()
    .waitFor()
  await charts().getByText('Crossed out: void or an unused spare, in no mean').first().waitFor()
  const both = page.getByRole('table', { name: 'With and without what does not count' })
  expect(await both.getByRole('row').nth(1).innerText()).toMatch(/n = \d+[^]*n = \d+/)
})

test('n, mean and the kind of scatter are named where they stand', async () => {
  await openTab('results')
  const statistics = page.getByRole('region', { name: 'Statistics by content' })
  const heads = (await statistics.getByRole('columnheader').allInnerTexts()).join(' ')
  for (const named of ['n', 'Mean', 'Standard deviation', 'Range']) expect(heads).toContain(named)
  await statistics
    .getByText(/sample standard deviation, and range \(largest less smallest\)\. Nothing is pooled/)
    .waitFor()
  for (const figure of await charts().all()) expect(await figure.innerText()).toMatch(/n = \d+, line through the means/)
})

test('charts name their axes with units, a broken axis and each limit, and curves differ without colour', async () => {
  await openTab('results')
  const chart = charts().filter({ hasText: 'Abrasion loss' }).first()
  await chart.getByRole('button', { name: /soak/ }).first().waitFor()
  // As a printer without colour shows it: what differs must differ in shape.
  await page.addStyleTag({ content: 'html { filter: grayscale(1) }' })
  const said = await chart.innerText()
  expect(said).toContain('Abrasion loss, g/m²')
  expect(said).toMatch(/Residual binder, % of dry aggregate \(broken axis: begins at [\d.]+, not at zero\)/)
  expect(await chart.locator('[data-axis-break]').count()).toBe(1)
  const limits = await chart.locator('.recharts-reference-line').all()
  expect(limits.length).toBeGreaterThan(0)
  const labels = await Promise.all(
    (
      await chart
        .locator('svg text')
        .filter({ hasText: /at (most|least) \d+\sg\/m²/ })
        .all()
    ).map(boxOf),
  )
  expect(labels).toHaveLength(limits.length)
  for (const limit of limits) {
    const line = await boxOf(limit)
    expect(Math.min(...labels.map((label) => gapBetween(label, line)))).toBeLessThan(12)
  }

  const legend = chart.getByRole('list').first().getByRole('listitem').filter({ hasText: 'line through the means' })
  const dashes = await attributesOf(legend.locator('svg > path:first-child'), 'stroke-dasharray')
  const marks = await Promise.all(
    (await legend.locator('svg > :nth-child(2)').all()).map((mark) =>
      mark.evaluate((element) => (element as unknown as { tagName: string }).tagName),
    ),
  )
  expect(dashes.length).toBeGreaterThan(1)
  expect(new Set(dashes).size).toBe(dashes.length)
  expect(new Set(marks).size).toBe(marks.length)
  const lines = await attributesOf(chart.locator('.recharts-line-curve'), 'stroke-dasharray')
  expect(lines).toEqual(dashes)
})

test('no line is drawn beyond the contents tested', async () => {
  await openTab('results')
  const chart = charts().filter({ hasText: 'Abrasion loss' }).first()
  await chart.locator('.recharts-line-curve').first().waitFor()
  const points = await Promise.all((await chart.getByRole('button', { name: /soak/ }).all()).map(boxOf))
  const [from, to] = [Math.min(...points.map(({ x }) => x)), Math.max(...points.map(({ x, width }) => x + width))]
  for (const line of await chart.locator('.recharts-line-curve').all()) {
    const { x, width } = await boxOf(line)
    expect(x).toBeGreaterThanOrEqual(from)
    expect(x + width).toBeLessThanOrEqual(to)
  }
})

test('points are reached by keyboard and by touch; what they say stays until it is dismissed', async () => {
  await openTab('results')
  const chart = charts().first()
  const points = chart.getByRole('button', { name: /%.*g\/m²/ })
  await points.first().waitFor()
  await points.first().focus()
  await page.keyboard.press('Tab')
  const { name, seen } = await focused(page)
  expect(seen || name !== '').toBe(true)
  const details = chart.getByRole('status')
  await expect.poll(() => details.innerText()).toContain(name)
  await page.mouse.move(5, 5)
  expect(await details.innerText()).toContain(name)
  await page.keyboard.press('Escape')
  await details.getByText('Choose a point to see its numbers.').waitFor()
  await points.nth(2).click()
  await details.getByRole('button', { name: 'Show calculation' }).waitFor()
  await details.getByRole('button', { name: 'Close' }).click()
  await details.getByText('Choose a point to see its numbers.').waitFor()
})

test('each chart has the sentence of its message, and its numbers as a table', async () => {
  await openTab('results')
  for (const chart of await charts().all()) {
    expect(await chart.locator('figcaption').innerText()).toMatch(
      /(meets its limit|does not cross its limit|the mean is)/,
    )
    await chart.getByText(/points as a table$/).click()
    const drawn = chart.locator('svg').getByRole('button', { name: /%.*g\/m²/ })
    await drawn.first().waitFor()
    await expect.poll(() => chart.getByRole('table').locator('tbody tr').count()).toBe(await drawn.count())
  }
})

test('two revisions stand side by side, and what differs is said in words', async () => {
  await page.goto(`${lab}/designs/compare?a=${design}.1&b=${design}.2`)
  await page.getByRole('heading', { name: /rows? differs?/ }).waitFor()
  const part = page.getByRole('table', { name: 'Recommended content, in % of dry aggregate' })
  const differs = part.getByRole('row').filter({ hasText: 'Added water, from' })
  expect(await differs.innerText()).toMatch(/Differs: 9\s% against 8\s%, 1\s% less/)
  await page.getByRole('checkbox', { name: 'Show only what differs' }).click()
  await page.waitForURL(/only=different/)
  await expect.poll(() => page.getByRole('main').getByText('The same', { exact: true }).count()).toBe(0)
})

test('what if stands apart, says that it is not recorded, and leaves review and paper as they were', async () => {
  await openTab('review')
  const stands = await page.getByRole('table', { name: 'Panel' }).innerText()
  await openTab('results')
  await page.getByRole('button', { name: 'Ask what the range would be without a specimen' }).click()
  await page
    .getByRole('group', { name: /^Leave out of: / })
    .first()
    .getByRole('checkbox')
    .first()
    .check()
  await page.getByRole('button', { name: 'Compute without one specimen' }).click()
  const answer = page.getByRole('region', { name: /^What if: without / })
  await answer.getByText('Not recorded').waitFor()
  await page.emulateMedia({ media: 'print' })
  expect(await answer.isVisible()).toBe(false)
  await page.emulateMedia({ media: null })
  await openTab('review')
  expect(await page.getByRole('table', { name: 'Panel' }).innerText()).toBe(stands)
})

test('no page had a fault', () => {
  expect(journey.faults).toEqual([])
})
