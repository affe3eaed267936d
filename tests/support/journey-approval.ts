import type { Download, Page } from 'playwright-core'

/** On a design: the content that the engineer recommends, field by field. */
export async function recommend(page: Page, values: Readonly<Record<string, string>>): Promise<void> {
  await page.getByRole('link', { name: 'Recommendation', exact: true }).click()
  for (const [field, value] of Object.entries(values)) await page.getByLabel(field).fill(value)
  await page.getByRole('button', { name: 'Recommend this content' }).click()
  await page.getByText(/^Recommended by /).waitFor()
}

/** On the review: a word for every point that waits for one; returns the line that counts them. */
export async function settlePoints(page: Page, word: string): Promise<string> {
  await page.getByRole('link', { name: 'Review', exact: true }).click()
  const points = page.getByRole('region', { name: 'To be seen before signing' })
  const counted = points.getByRole('status').first()
  await counted.waitFor()
  const all = page.getByRole('checkbox', { name: 'Choose all not tested' })
  const form = points.locator('form').filter({ has: all })
  if ((await form.count()) > 0) {
    await form.getByRole('checkbox', { name: 'Choose all not tested' }).check()
    await form.getByRole('textbox', { name: /for those chosen$/ }).fill(word)
    await form.getByRole('button', { name: /^Settle \d+ points?$/ }).click()
    await form.waitFor({ state: 'detached' })
  }
  for (let left = await points.locator('form').count(); left > 0; left -= 1) {
    const point = points.locator('[data-point]:has(form)').first()
    const key = await point.getAttribute('data-point')
    await point.getByRole('textbox').fill(word)
    await point.getByRole('button').click()
    await points.locator(`[data-point="${key}"] form`).waitFor({ state: 'detached' })
  }
  return counted.innerText()
}

/** On the review: a signature, with the password again. */
export async function sign(
  page: Page,
  { act, confirm, password }: { act: string; confirm: string; password: string },
): Promise<void> {
  await page.getByRole('button', { name: act }).click()
  const dialog = page.getByRole('dialog', { name: act })
  await dialog.getByLabel('Your password').fill(password)
  await dialog.getByRole('button', { name: confirm }).click()
  await dialog.waitFor({ state: 'detached' })
}

export async function issueReport(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Report', exact: true }).click()
  // The review has a button of the same name: what is opened there goes with it.
  await page.getByRole('heading', { name: 'Reports', exact: true }).waitFor()
  await page.getByRole('button', { name: 'Issue the report' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByRole('button', { name: 'Show the report as it would go out' }).click()
  await dialog.getByText('Not released', { exact: true }).first().waitFor()
  await dialog.getByRole('button', { name: /^Issue the report of revision/ }).click()
  await dialog.waitFor({ state: 'detached' })
  await page.getByRole('table', { name: 'Reports' }).getByText('Current').waitFor()
}

/** Opens the report as a client does; returns the file that the browser got. */
export async function openReport(page: Page): Promise<string> {
  const came = new Promise<Download>((resolve) => {
    page.on('download', resolve)
    page.context().on('page', (opened) => opened.on('download', resolve))
  })
  await page.getByRole('link', { name: /^Open report .* \(PDF\)$/ }).click()
  return (await came).path()
}
