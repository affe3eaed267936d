import type { Locator, Page } from 'playwright-core'

export type TypedReading = { readonly code: string; readonly label: string; readonly typed: string }

/** What has the focus, of what is found. */
const focusedOf = (page: Page, found: Locator) => found.and(page.locator(':focus'))
const field = (page: Page, label: string) => page.getByLabel(new RegExp(`^${plain(label)}`))
const button = (page: Page, words: string) => page.getByRole('button', { name: new RegExp(`^${plain(words)}`) })
const plain = (words: string) => words.replaceAll(/[().]/g, '\\$&')

/** Waits until a button whose words begin so has the focus, and presses Enter. */
async function enterOn(page: Page, words: string): Promise<void> {
  await focusedOf(page, button(page, words)).waitFor()
  await page.keyboard.press('Enter')
}

/**
 * Types one reading into the field that has the focus and stores it with Enter; what is asked about is kept with Enter.
 * Resolves when the focus has gone on to `next`.
 */
async function typeReading(page: Page, label: string, typed: string, next: Locator): Promise<void> {
  await focusedOf(page, field(page, label)).waitFor()
  await page.keyboard.type(typed)
  await page.keyboard.press('Enter')
  const asked = focusedOf(page, page.getByRole('alert').getByRole('button'))
  const gone = focusedOf(page, next)
  await asked.or(gone).first().waitFor()
  if (await asked.isVisible()) {
    await page.keyboard.press('Enter')
    await gone.waitFor()
  }
}

/** The task row of my work that names all of these words. */
export async function openTask(page: Page, ...words: readonly string[]): Promise<void> {
  if (!new URL(page.url()).pathname.endsWith('/bench')) {
    const link = page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Bench' })
    const menu = page.getByRole('button', { name: 'Screens', exact: true })
    await link.or(menu).first().waitFor()
    if (await menu.isVisible()) await menu.click()
    await link.click()
  }
  let row = page.getByRole('main').getByRole('listitem').getByRole('link')
  for (const word of words) row = row.filter({ hasText: word })
  await row.first().click()
  await page
    .getByRole('heading', { level: 1 })
    .filter({ hasNotText: /^Bench$/ })
    .waitFor()
}

const components = {
  aggregate: 'Aggregate, as it is (moist or dry) of',
  filler: 'Mineral filler of',
  additive: 'Set-control additive of',
  water: 'Added water of',
  emulsion: 'Emulsion of',
} as const
export type Batch = Readonly<Record<keyof typeof components, string>>

/**
 * Weighs batches by keyboard alone, from the first one open on the page: five components, the emulsion goes in, Enter goes
 * on to the next. Returns what was typed.
 */
export async function weighBatches(
  page: Page,
  count: number,
  { of, before }: { of: (batch: { code: string; label: string }) => Batch; before: (index: number) => Promise<void> },
): Promise<TypedReading[]> {
  const typed: TypedReading[] = []
  let previous = ''
  for (let index = 0; index < count; index += 1) {
    await before(index)
    const batch = await batchOnPage(page, previous)
    previous = batch.name
    const weights = of(batch)
    const names = Object.entries(components)
    for (const [at, [component, label]] of names.entries()) {
      const weight = weights[component as keyof Batch]
      const after = names[at + 1]?.[1]
      const next = after === undefined ? button(page, 'Confirm “Emulsion in”') : field(page, `${after} ${batch.name}`)
      await typeReading(page, `${label} ${batch.name}`, weight, next)
      typed.push({ ...batch, label, typed: weight })
    }
    await enterOn(page, 'Confirm “Emulsion in”')
    if (index < count - 1) await enterOn(page, 'Next batch')
  }
  await page
    .getByText(/All steps are done|No other batch waits for you|Next batch/)
    .first()
    .waitFor()
  return typed
}

async function batchOnPage(page: Page, previous: string): Promise<{ name: string; code: string; label: string }> {
  const heading = page.getByRole('heading', { level: 1 }).filter({ hasText: /^\d+-\d+ \([^)]+\)$/ })
  await (previous === '' ? heading : heading.filter({ hasNotText: previous })).waitFor()
  const name = await heading.innerText()
  const [, label = '', code = ''] = /^(\S+) \(([0-9A-Z]+)/.exec(name) ?? []
  return { name, label, code }
}

/** Weighs a rack by keyboard alone, in the order given: code, Enter, weight, Enter. */
export async function weighRack(
  page: Page,
  weights: readonly { readonly code: string; readonly typed: string }[],
  before: (index: number) => Promise<void> = () => Promise.resolve(),
): Promise<void> {
  const next = field(page, 'Code of the specimen on the balance')
  for (const [index, { code, typed }] of weights.entries()) {
    await before(index)
    await focusedOf(page, next).waitFor()
    await page.keyboard.type(code)
    await page.keyboard.press('Enter')
    await typeReading(page, 'Mass', typed, next)
  }
}

/** Confirms an act for the specimens with these codes in one press, and waits until every one of them is said to be confirmed. */
export async function confirmActs(page: Page, act: string, codes: readonly string[]): Promise<void> {
  const clear = page.getByRole('button', { name: 'Clear', exact: true })
  for (const code of codes) await page.getByRole('row').filter({ hasText: code }).first().waitFor()
  if (await clear.isVisible()) await clear.click()
  const field = page.getByLabel('Add specimens by code')
  await field.fill(codes.join(' '))
  await field.press('Enter')
  await page.getByRole('button', { name: new RegExp(`^Confirm “${act}” for ${codes.length} `) }).click()
  const outcomes = page.getByRole('region', { name: 'What came of it' }).or(page.getByLabel('What came of it'))
  for (const code of codes)
    await outcomes.getByRole('listitem').filter({ hasText: code }).filter({ hasText: 'Confirmed' }).first().waitFor()
}
