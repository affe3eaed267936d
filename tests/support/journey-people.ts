import type { Page } from 'playwright-core'

/** Invites one person and returns the link that is shown this once. A client stands for the one named. */
export async function invite(
  page: Page,
  { name, email, role, client }: { name: string; email: string; role: string; client?: string },
): Promise<string> {
  if (!page.url().endsWith('/people')) await page.getByRole('link', { name: 'People' }).click()
  await page.getByRole('button', { name: 'Invite a person' }).first().click()
  const dialog = page.getByRole('dialog', { name: 'Invite a person' })
  await dialog.getByLabel('Name').fill(name)
  await dialog.getByLabel('E-mail address').fill(email)
  await dialog.getByRole('checkbox', { name: role }).check()
  if (client !== undefined) await dialog.getByLabel('Client', { exact: true }).selectOption({ label: client })
  await dialog.getByRole('button', { name: 'Make the invitation' }).click()
  const link = await dialog.getByLabel('Link for the invited person').inputValue()
  await dialog.getByRole('button', { name: 'I have the link' }).click()
  await dialog.waitFor({ state: 'detached' })
  return link
}

/** Opens the link, chooses a password, and ends on the sign-in page. */
export async function accept(page: Page, link: string, password: string): Promise<void> {
  await page.goto(link)
  await page.getByRole('heading', { level: 1, name: /^Join / }).waitFor()
  await page.getByLabel('Password', { exact: true }).fill(password)
  await page.getByRole('button', { name: 'Make my account and join' }).click()
  await page.waitForURL(/\/sign-in$/)
}
