import type { SpecimenRow } from '@curebook/contract/designs'
import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../support/app.ts'
import { aReading } from '../support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../support/factories/design.ts'
import type { TestLaboratory } from '../support/factories/laboratory.ts'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { makeBenchMorning } from '../support/journey-bench-start.ts'
import { choose } from '../support/journey-desk.ts'
import { makeJourneyLaboratory, withServices } from '../support/journey-laboratory.ts'
import { boxOf, styleOf } from '../support/journey-looks.ts'

/** What a manager relies on: the Schedule, the search, and the labels of a container. */

const schedule = '/l/tern-hollow/schedule'
/** The window of one run has just closed. */
const now = '2026-03-05T08:20:00Z'
let journey: Journey
let marek: Person, second: Person
let page: Page
let made: Awaited<ReturnType<typeof prepare>>

beforeAll(async () => {
  journey = await startJourney({ at: '2026-03-05T07:05:00Z' })
  const lab = await makeJourneyLaboratory(journey.product, { at: '2026-03-02T08:00:00Z', prepare })
  made = lab.prepared
  marek = await journey.arrive()
  page = marek.page
  await signIn(marek, lab.emails.manager, lab.password)
  second = await journey.arrive()
  await signIn(second, lab.emails.manager, lab.password)
  await second.page.goto(schedule)
})
afterAll(() => journey?.close())

/** A morning at the bench, all of it one technician's, and nine discs of another design that nobody has yet. */
async function prepare(testApp: TestApp, lab: TestLaboratory) {
  const specimens = await makeBenchMorning(testApp, lab)
  const methods = [{ methodKey: 'wet-track-abrasion-1h', replicates: 3, spares: [] }]
  const series = aSeries({ contents: ['10', '11', '14'], methods })
  const { specimens: free, design } = await makePlannedDesign(testApp, lab, series, { name: 'Further' })
  return { specimens, free, lab, sample: design.materials.emulsion }
}

const table = (of: Page = page) => of.getByRole('table', { name: /^\d+ tests? of \d+/ })
const rows = (of: Page = page) => table(of).locator('tbody tr')
const boxes = () => table().locator('tbody input[type=checkbox]')
const boxOfDisc = ({ label, code }: SpecimenRow) =>
  page.getByRole('checkbox', { name: new RegExp(`^${label} \\(${code}\\)`) })
const chosen = (count: number) =>
  page
    .getByRole('status')
    .filter({ hasText: new RegExp(`^${count} chosen$`) })
    .waitFor()
const filters = () => page.getByRole('search', { name: 'Filters of the schedule' })
const labelsShown = async (of: Page = page) =>
  (await rows(of).locator('th').allInnerTexts()).map((text) => text.split(' ')[0]!)

async function openSchedule(query = '') {
  await page.goto(`${schedule}${query}`)
  await table().or(page.getByText('No test matches these filters.')).first().waitFor()
}

test('a load is told in windows and hours, and every date has its weekday', async () => {
  await openSchedule()
  const ada = page.getByRole('table', { name: 'People' }).getByRole('row').filter({ hasText: 'Ada Lindqvist' })
  expect(await ada.innerText()).toMatch(/\d{2}:\d{2} to \d{2}:\d{2}: .+ \(\d+ tests?\)[^]*\d+:\d\d/)
  const coming = page.getByRole('table', { name: 'Hands-on work of the coming days' })
  for (const head of (await coming.getByRole('columnheader').allInnerTexts()).filter((text) => /\d/.test(text)))
    expect(head).toMatch(/^(Mon|Tue|Wed|Thu|Fri|Sat|Sun)/)
})

test('what is late, due today, stuck, unassigned or undecided is a number, and leads to exactly so many rows', async () => {
  await journey.clockTo(now)
  await openSchedule()
  const first = page.getByRole('navigation', { name: 'What to look at first' }).getByRole('link')
  const said: Record<string, number> = {}
  for (const text of await first.allInnerTexts()) {
    const [count = '', name = ''] = text.split('\n').map((part) => part.trim())
    said[name] = Number(count)
    await first.filter({ hasText: name }).click()
    await filters()
      .getByRole('button', { name: `Take off ${name}` })
      .waitFor()
    if (said[name] === 0) await page.getByText('No test matches these filters.').waitFor()
    else await expect.poll(() => rows().count(), { message: name }).toBe(said[name])
  }
  expect(said.Late).toBeGreaterThan(0)
  expect(said.Stuck).toBeGreaterThan(0)
  expect(said.Unassigned).toBe(made.free.length)
})

test('rows are chosen with Shift by key and by pointer, and given after what speaks against it was said', async () => {
  await openSchedule('?person=nobody')
  await boxes().first().focus()
  await page.keyboard.press('Space')
  await page.keyboard.press('Shift+ArrowDown')
  await page.keyboard.press('Shift+ArrowDown')
  await chosen(3)
  await page.getByRole('button', { name: 'Clear', exact: true }).click()
  await boxes().nth(1).click()
  await boxes()
    .nth(4)
    .click({ modifiers: ['Shift'] })
  await chosen(4)
  await boxes().nth(4).press('Enter')
  const dialog = page.getByRole('dialog', { name: 'Give 4 tests' })
  await choose(dialog.getByLabel('Give to'), 'Bram Osei')
  await dialog.getByText('Nothing speaks against it.').waitFor()
  const confirm = dialog.getByRole('button', { name: 'Give 4 tests to Bram Osei' })
  const [before, button] = [await boxOf(dialog.getByText('Nothing speaks against it.')), await boxOf(confirm)]
  expect(before.y + before.height).toBeLessThan(button.y)
  await page.keyboard.press('Escape')
})

test('a begun test asks for the reason before it goes to another person; one not begun asks for none', async () => {
  await openSchedule()
  const soaking = made.specimens.find(({ label }) => label === '13-3')!
  await boxOfDisc(made.free[0]!).check()
  await boxOfDisc(soaking).check()
  await page.getByRole('button', { name: 'Give 2 tests to a person' }).click()
  const dialog = page.getByRole('dialog', { name: 'Give 2 tests' })
  await choose(dialog.getByLabel('Give to'), 'Bram Osei')
  await dialog.getByText(new RegExp(`Begun by somebody else, so a reason is asked: 13-3 · ${soaking.code}`)).waitFor()
  await dialog.getByRole('button', { name: 'Give 2 tests to Bram Osei' }).click()
  const reason = dialog.getByLabel(/^Reason, since 1 of them is begun/)
  await expect.poll(() => reason.getAttribute('aria-invalid')).toBe('true')
  await page.keyboard.press('Escape')
})

test('each row has its outcome, and what was refused stays chosen', async () => {
  const [begun, other] = [made.free[0]!, made.free[1]!]
  const { technician, manager } = made.lab.people
  const give = { testIds: [begun.testId, other.testId], to: technician.actor.membershipId }
  await withServices(journey.product, now, ({ services }) => services.schedule.assign(manager.actor, give, newId()))
  await openSchedule()
  for (const disc of [begun, other]) await boxOfDisc(disc).check()
  await page.getByRole('button', { name: 'Give 2 tests to a person' }).click()
  const dialog = page.getByRole('dialog', { name: 'Give 2 tests' })
  await choose(dialog.getByLabel('Give to'), 'Bram Osei')
  await dialog.getByText('Nothing speaks against it.').waitFor()
  // While one looks at it, work on one of them begins.
  await withServices(journey.product, now, (testApp) =>
    testApp.services.bench.readings.post(
      technician.actor,
      begun.batchTestId,
      aReading(testApp, 'weigh-components', 'aggregate', '800.0'),
    ),
  )
  await dialog.getByRole('button', { name: 'Give 2 tests to Bram Osei' }).click()
  await dialog.getByText('1 test is given to Bram Osei, 1 was refused.').waitFor()
  const outcome = (label: string) => dialog.getByRole('row').filter({ hasText: label }).innerText()
  expect(await outcome(begun.label)).toMatch(/Refused[^]*reason/)
  expect(await outcome(other.label)).toMatch(/Done/)
  await dialog.getByRole('button', { name: 'Back to the schedule' }).click()
  await chosen(1)
  expect(await boxOfDisc(begun).isChecked()).toBe(true)
})

test('what is chosen stays chosen under a filter; its count is always shown, with Clear beside it', async () => {
  await openSchedule()
  for (const disc of made.free.slice(2, 4)) await boxOfDisc(disc).check()
  await choose(filters().getByLabel('Person'), 'Ada Lindqvist')
  await expect.poll(async () => (await labelsShown()).includes(made.free[2]!.label)).toBe(false)
  await chosen(2)
  await filters().getByRole('button', { name: 'Take off Ada Lindqvist' }).click()
  expect(await boxOfDisc(made.free[2]!).isChecked()).toBe(true)
  await page.getByRole('button', { name: 'Clear', exact: true }).click()
  await page.getByRole('status').filter({ hasText: 'None chosen' }).waitFor()
})

test('the order is said by the head and stands in the address; head and first column stay; columns and density are kept', async () => {
  await openSchedule()
  const head = table().getByRole('columnheader', { name: 'Test', exact: true })
  for (const direction of ['ascending', 'descending']) {
    await head.getByRole('button').click()
    await expect.poll(() => head.getAttribute('aria-sort')).toBe(direction)
  }
  expect(new URL(page.url()).searchParams.get('sort')).toContain('test')
  const shown = await labelsShown()
  await page.reload()
  await table().waitFor()
  expect(await labelsShown()).toEqual(shown)
  expect(await styleOf(head, 'position')).toBe('sticky')
  expect(await styleOf(rows().first().locator('th'), 'position')).toBe('sticky')

  await page.getByText('Columns and density').click()
  await page.getByRole('checkbox', { name: 'Column “Design”' }).uncheck()
  await page.getByRole('checkbox', { name: 'Tight rows' }).check()
  await page.reload()
  await table().waitFor()
  expect(await table().getByRole('columnheader', { name: 'Design', exact: true }).count()).toBe(0)
  await page.getByText('Columns and density').click()
  expect(await page.getByRole('checkbox', { name: 'Tight rows' }).isChecked()).toBe(true)
  await page.getByRole('checkbox', { name: 'Column “Design”' }).check()
})

test('filters are chips to take off and stand in the address, which shows another person the same view', async () => {
  await openSchedule()
  await choose(filters().getByLabel('Person'), 'Ada Lindqvist')
  await filters().getByRole('button', { name: 'Take off Ada Lindqvist' }).waitFor()
  await page.getByRole('button', { name: 'Keep as my usual view' }).click()
  const shown = await labelsShown()
  await second.page.goto(page.url())
  await table(second.page).waitFor()
  expect(await labelsShown(second.page)).toEqual(shown)
  await filters().getByRole('button', { name: 'Take off Ada Lindqvist' }).click()
  await expect.poll(async () => (await labelsShown()).length).toBeGreaterThan(shown.length)
  await page.getByRole('link', { name: 'My usual view' }).click()
  await expect.poll(() => labelsShown()).toEqual(shown)
})

test('numbers stand right-aligned under a head that names their unit, with as many decimals each', async () => {
  await openSchedule()
  const people = page.getByRole('table', { name: 'People' })
  const hours = people.getByRole('columnheader', { name: /^In windows today\s*h:min/ })
  const at = await hours.evaluate((cell) => (cell as unknown as { cellIndex: number }).cellIndex)
  const cells = people.locator(`tbody tr > :nth-child(${at + 1})`)
  for (const cell of await cells.all()) {
    expect(await styleOf(cell, 'text-align')).toMatch(/end|right/)
    expect(await styleOf(cell, 'font-variant-numeric')).toContain('tabular-nums')
    expect(await cell.innerText()).toMatch(/^\d+:\d\d$/)
  }
})

test('what others change waits in a bar and moves no row until it is asked for', async () => {
  await openSchedule('?person=nobody')
  const shown = await labelsShown()
  const testIds = [made.free[4]!.testId, made.free[5]!.testId]
  const to = made.lab.people.technician2.actor.membershipId
  await withServices(journey.product, now, ({ services }) =>
    services.schedule.assign(made.lab.people.manager.actor, { testIds, to }, newId()),
  )
  await page.getByText('2 changes by others').waitFor()
  expect(await labelsShown()).toEqual(shown)
  await page.getByRole('button', { name: 'Show the changes' }).click()
  await expect
    .poll(() => labelsShown())
    .toEqual(shown.filter((label) => ![made.free[4]!.label, made.free[5]!.label].includes(label)))
})

test('the file holds the rows, columns and order of the screen, and is named by laboratory, view and day', async () => {
  await openSchedule('?person=nobody&sort=test')
  const shown = await labelsShown()
  const came = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save as CSV' }).click()
  const file = await came
  expect(file.suggestedFilename()).toBe('tern-hollow-schedule-nobody-2026-03-05.csv')
  const lines = (await readFile(await file.path(), 'utf8')).trim().split('\r\n')
  expect(lines[0]).toContain('"Place in the design","Code"')
  expect(lines.slice(1).map((line) => /^"([^"]+)"/.exec(line)?.[1])).toEqual(shown)
})

test('Ctrl with K searches; what is found says why, and Enter opens it', async () => {
  await openSchedule()
  const { code, label } = made.free[3]!
  await page.keyboard.press('Control+k')
  const field = page.getByRole('combobox', { name: 'Code, name, or what you want to do' })
  await field.and(page.locator(':focus')).waitFor()
  await page.keyboard.type(code.toLowerCase())
  await page
    .getByRole('option')
    .filter({ hasText: `Specimen: its code is “${code}”` })
    .waitFor()
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { level: 1, name: `${label} (${code})` }).waitFor()
  await page.keyboard.press('Control+k')
  await page.keyboard.type('new project')
  await page.getByRole('option').filter({ hasText: 'Enter a new project' }).waitFor()
  await page.keyboard.press('Enter')
  await page.waitForURL(/\/projects\/new$/)
})

test('a label is shown and printed in true size, as many as asked for, and each print is recorded', async () => {
  const mm = (px: number) => (px / 96) * 25.4
  await page.goto(`/l/tern-hollow/materials/${made.sample.id}/labels?size=62x29`)
  const face = page.getByRole('group', { name: 'In true size' }).getByRole('listitem').first().locator(':scope > *')
  const { width, height } = await boxOf(face)
  expect([mm(width), mm(height)].map((side) => side.toFixed(1))).toEqual(['62.0', '29.0'])
  await page.getByText(/paper of 62 × 29 mm, scale 100 %, no margins/).waitFor()
  await page.evaluate('window.print = () => { window.printed = (window.printed ?? 0) + 1 }')
  await page.getByLabel('How many').fill('3')
  await page.getByRole('button', { name: 'Print', exact: true }).click()
  await page.getByText(/^3 labels by Marek Dunmore,/).waitFor()
  await page.getByRole('button', { name: 'Print again' }).press('Enter')
  await page.getByText(/^Again: 3 labels by Marek Dunmore,/).waitFor()
  expect(await page.evaluate<number>('window.printed')).toBe(2)
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1')
  const [, across = '', down = ''] = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/.exec(pdf) ?? []
  expect([across, down].map((points) => Math.round((Number(points) / 72) * 25.4))).toEqual([62, 29])
  expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(3)
})

test('a file shows its faults by line and stores nothing until all is right; what came in is taken back as a whole', async () => {
  const heads = 'code,kind,name,capacity,smallest step'
  const file = (...lines: readonly string[]) => ({
    name: 'balances.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from([heads, ...lines, ''].join('\r\n')),
  })
  const counted = async () =>
    (
      await withServices(journey.product, now, ({ services }) =>
        services.instruments.list(made.lab.people.manager.actor),
      )
    ).items.length
  const before = await counted()
  await page.goto('/l/tern-hollow/instruments/import')
  const field = page.getByLabel('File of instruments (CSV)')
  await field.setInputFiles(file('BAL-7,balance,Balance,3100,0.1', 'BAL-8,sundial,Balance,3100,0.1'))
  await page.getByText(/^1 fault: nothing can come in before the file is put right/).waitFor()
  const fault = page.getByRole('table', { name: '1 fault', exact: true }).locator('tbody tr')
  expect(await fault.innerText()).toMatch(/^3\s+kind\s+\S/)
  const bringIn = page.getByRole('button', { name: /^Import \d/ })
  expect(await bringIn.count()).toBe(0)
  expect(await counted()).toBe(before)

  await field.setInputFiles(file('BAL-7,balance,Balance,3100,0.1', 'BAL-8,balance,Balance,3100,0.1'))
  await page.getByText('2 instruments would come in. Nothing is stored yet.').waitFor()
  expect(await counted()).toBe(before)
  await bringIn.click()
  await page.getByText('2 instruments of balances.csv came in.').waitFor()
  expect(await counted()).toBe(before + 2)

  await page.getByRole('button', { name: 'Take back 2 instruments' }).click()
  const dialog = page.getByRole('dialog', { name: 'Take back balances.csv' })
  await dialog.getByLabel('Why it is taken back').fill('Wrong file')
  await dialog.getByRole('button', { name: 'Take back 2 instruments' }).press('Enter')
  await page.getByText(/^Taken back by Marek Dunmore: Wrong file,/).waitFor()
  expect(await counted()).toBe(before)
})

test('no page had a fault', () => {
  expect(journey.faults).toEqual([])
})
