import type { Locator, Page } from 'playwright-core'

/** The option of a list whose words begin with, or hold, these. */
export async function choose(select: Locator, words: string): Promise<void> {
  const option = select.locator('option').filter({ hasText: words }).first()
  await option.waitFor({ state: 'attached' })
  await select.selectOption(await option.getAttribute('value'))
}

/** Opens a screen by its link in the navigation. */
export async function openScreen(page: Page, name: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name, exact: true }).click()
  await page.getByRole('heading', { level: 1, name }).waitFor()
}

/** Enters the client beside the form of the new project, then the project. */
export async function enterProject(
  page: Page,
  { client, name, kind }: { client: string; name: string; kind: 'Full design' | 'Verification at one content' },
): Promise<void> {
  await openScreen(page, 'Projects')
  await page.getByRole('link', { name: 'New project' }).first().click()
  await page.getByRole('button', { name: 'Enter a new client' }).click()
  const dialog = page.getByRole('dialog', { name: 'Enter a client' })
  await dialog.getByLabel('Client’s name').fill(client)
  await dialog.getByRole('button', { name: 'Enter the client' }).click()
  await dialog.waitFor({ state: 'detached' })
  await page.getByLabel('Project', { exact: true }).fill(name)
  await page.getByRole('radio', { name: kind }).check()
  await page.getByRole('button', { name: 'Make the project' }).click()
  await page.getByRole('heading', { level: 1, name }).waitFor()
}

export async function adoptSpecification(
  page: Page,
  { builtIn, type, traffic, name }: { builtIn: string; type: string; traffic: string; name: string },
): Promise<void> {
  await openScreen(page, 'Projects')
  await page.getByRole('link', { name: 'Specifications' }).click()
  await page.getByRole('link', { name: 'Adopt a specification' }).first().click()
  await page.getByLabel('Guideline', { exact: true }).selectOption(builtIn)
  await page.getByLabel('Aggregate type', { exact: true }).selectOption(type)
  await page.getByLabel('Traffic', { exact: true }).selectOption(traffic)
  await page.getByLabel('Name of the specification').fill(name)
  await page.getByRole('button', { name: 'Adopt the specification' }).click()
  await page.getByRole('heading', { level: 1, name }).waitFor()
}

export type Sample = { kind: string; name: string; source: string; supplier?: string; lot?: string; note?: string }

export async function receiveSample(page: Page, receivedOn: string, sample: Sample): Promise<void> {
  if (!/\/materials$/.test(new URL(page.url()).pathname)) await openScreen(page, 'Materials')
  await page.getByRole('link', { name: 'New sample' }).first().click()
  await page.getByRole('radio', { name: sample.kind }).check()
  await page.getByLabel('What it is').fill(sample.name)
  await page.getByLabel('Where it comes from').fill(sample.source)
  await page.getByLabel('Supplier').fill(sample.supplier ?? '')
  await page.getByLabel('Lot or load').fill(sample.lot ?? '')
  await page.getByLabel('Received on').fill(receivedOn)
  await page.getByLabel('Note').fill(sample.note ?? '')
  await page.getByRole('button', { name: 'Store the sample' }).click()
  await page.getByRole('row').filter({ hasText: sample.name }).waitFor()
}

export type NewInstrument = { kind: string; code: string; name: string; capacity?: string; step?: string }

export async function enterInstrument(page: Page, { kind, code, name, capacity, step }: NewInstrument): Promise<void> {
  await openScreen(page, 'Instruments')
  await page.getByRole('link', { name: 'New instrument' }).first().click()
  await choose(page.getByLabel('Kind', { exact: true }), kind)
  await page.getByLabel('Code', { exact: true }).fill(code)
  await page.getByLabel('What it is').fill(name)
  if (capacity !== undefined) await page.getByLabel('Capacity, in grams').fill(capacity)
  if (step !== undefined) await page.getByLabel('Smallest step, in grams').fill(step)
  await page.getByRole('button', { name: 'Enter the instrument' }).click()
  await page.getByRole('heading', { level: 1, name: code }).waitFor()
}

/** On the page of a machine. */
export async function enterFactor(
  page: Page,
  { unit, value, area, edition, since }: { unit: string; value: string; area: string; edition: string; since: string },
): Promise<void> {
  await page.getByRole('button', { name: `Enter the factor in ${unit}` }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel(/^Factor for each gram, in /).fill(value)
  await dialog.getByLabel(/^Measured .*, in /).fill(area)
  await dialog.getByLabel('Edition it is taken from').fill(edition)
  await dialog.getByLabel('In use since').fill(since)
  await dialog.getByRole('button', { name: `Enter the factor in ${unit}` }).click()
  await dialog.waitFor({ state: 'detached' })
}

export type NewDesign = {
  project: string
  name: string
  specification: string
  samples: Readonly<Record<string, string>>
  fraction: string
  scalped: string
}

export async function makeDesign(page: Page, design: NewDesign): Promise<void> {
  await openScreen(page, 'Designs')
  await page.getByRole('link', { name: 'New design' }).first().click()
  await choose(page.getByLabel('Project'), design.project)
  await page.getByLabel('Name of the design').fill(design.name)
  await choose(page.getByLabel('Specification'), design.specification)
  for (const [field, sample] of Object.entries(design.samples))
    await choose(page.getByLabel(field, { exact: true }), sample)
  await page.getByLabel('Fraction used').fill(design.fraction)
  await page.getByLabel(/^Taken off the aggregate/).fill(design.scalped)
  await page.getByRole('button', { name: 'Make the design' }).click()
  await page.getByRole('heading', { level: 1, name: design.name }).waitFor()
}

/** On the overview of a design: a value found elsewhere, with where it comes from and when it was found. */
export async function enterValue(
  page: Page,
  what: 'residue' | 'moisture',
  { value, source, on }: { value: string; source: string; on: string },
): Promise<void> {
  await page.getByRole('button', { name: `Enter the ${what}` }).click()
  const dialog = page.getByRole('dialog', { name: `Enter the ${what}` })
  await dialog.getByLabel(what === 'residue' ? /^Residue, in per cent/ : /^Moisture, in per cent/).fill(value)
  await dialog.getByLabel('Where the value comes from').fill(source)
  await dialog.getByLabel('Day on which it was found').fill(on)
  await dialog.getByRole('button', { name: 'Store the value' }).click()
  await dialog.waitFor({ state: 'detached' })
}

export type Content = { emulsionPercent: string; waterPercent: string; fillerPercent: string; additivePercent: string }
const shares = {
  emulsionPercent: 'Emulsion',
  waterPercent: 'Added water',
  fillerPercent: 'Mineral filler',
  additivePercent: 'Additive',
}

/** On a design: contents as typed, how many specimens of each test (0 leaves the test out), and one spare at some contents. */
export async function planSeries(
  page: Page,
  contents: readonly Content[],
  replicates: Readonly<Record<string, number>>,
  spares: Readonly<Record<string, readonly string[]>> = {},
): Promise<void> {
  await page.getByRole('link', { name: 'Series', exact: true }).click()
  for (const [index, content] of contents.entries())
    for (const [key, share] of Object.entries(shares))
      await page
        .getByLabel(`${share} of content ${index + 1}, in per cent of dry aggregate`)
        .fill(content[key as keyof Content])
  for (const [test, count] of Object.entries(replicates)) {
    if (count === 0) await page.getByRole('checkbox', { name: test }).uncheck()
    else await page.getByLabel(`Replicates of ${test}`).fill(String(count))
    for (const content of spares[test] ?? []) await page.getByLabel(`Spares of ${test} at ${content} %`).fill('1')
  }
  await page.getByRole('button', { name: /^Plan \d+ specimens?$/ }).click()
  await page.getByRole('heading', { name: 'Batch sheets' }).waitFor()
}

/** A specimen as its row says on the design: painted code, place in the series, test. */
export type PlannedSpecimen = { readonly code: string; readonly label: string; readonly test: string }

export async function readSpecimens(page: Page, count: number): Promise<PlannedSpecimen[]> {
  await page.getByRole('link', { name: 'Specimens', exact: true }).click()
  const rows = page.getByRole('table', { name: 'Specimens' }).locator('tbody tr')
  await rows.nth(count - 1).waitFor()
  const planned: PlannedSpecimen[] = []
  for (const row of await rows.all()) {
    const [mark = '', label = '', test = ''] = await row.locator('th, td').allInnerTexts()
    planned.push({ code: /[0-9A-Z]{4}$/.exec(mark.trim())?.[0] ?? mark, label: label.trim(), test: test.trim() })
  }
  return planned
}

/** On the schedule: every open test of one method is given to one person, in one act. */
export async function assignAll(
  page: Page,
  { test, to, count }: { test: string; to: string; count: number },
): Promise<void> {
  await openScreen(page, 'Schedule')
  const method = page.getByRole('search').getByLabel('Method')
  const changes = page.getByRole('button', { name: 'Show the changes' })
  await method.locator('option').filter({ hasText: test }).or(changes).first().waitFor({ state: 'attached' })
  if (await changes.isVisible()) await changes.click()
  await choose(method, test)
  await page.getByText(new RegExp(`^${count} tests of `)).waitFor()
  await page.getByRole('checkbox', { name: 'Choose all rows shown' }).check()
  await page.getByRole('button', { name: `Give ${count} tests to a person` }).click()
  const dialog = page.getByRole('dialog', { name: `Give ${count} tests` })
  await choose(dialog.getByLabel('Give to'), to)
  await dialog.getByRole('button', { name: `Give ${count} tests to ${to}` }).click()
  await dialog.getByText(`${count} tests are given to ${to}.`).waitFor()
  await dialog.getByRole('button', { name: 'Back to the schedule' }).click()
  await dialog.waitFor({ state: 'detached' })
}
