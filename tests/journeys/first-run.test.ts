import { afterAll, beforeAll, expect, test } from 'vitest'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { accept, invite } from '../support/journey-people.ts'
import { setupCode } from '../support/journey-product.ts'

const password = 'eleven wet herons in a canoe'
const domain = 'ternhollow.example'

let journey: Journey

beforeAll(async () => {
  journey = await startJourney({ at: '2026-03-02T08:00:00Z' })
})
afterAll(() => journey?.close())

test('the first page makes the laboratory and its manager, and everybody else comes in by invitation', async () => {
  const manager = await journey.arrive()
  await refuseAWrongCode(manager)
  await makeLaboratory(manager)
  await signIn(manager, `manager@${domain}`, password)
  await manager.page.waitForURL(/\/l\/tern-hollow\//)

  await enterClient(manager, 'Marrowdale County Roads')
  const links = [
    await invite(manager.page, { name: 'Ada Lindqvist', email: `technician@${domain}`, role: 'Technician' }),
    await invite(manager.page, { name: 'Bram Osei', email: `technician2@${domain}`, role: 'Technician' }),
    await invite(manager.page, { name: 'Elin Marsh', email: `engineer@${domain}`, role: 'Engineer' }),
    await invite(manager.page, {
      name: 'Ines Calder',
      email: `client@${domain}`,
      role: 'Client',
      client: 'Marrowdale County Roads',
    }),
  ]
  const firstScreens = [/\/bench$/, /\/bench$/, /\/designs$/, /\/projects$/]
  const emails = ['technician', 'technician2', 'engineer', 'client'].map((name) => `${name}@${domain}`)
  for (const [index, link] of links.entries()) {
    const person = await journey.arrive()
    await accept(person.page, link, password)
    await signIn(person, emails[index]!, password)
    await person.page.waitForURL(firstScreens[index]!)
    await person.page.getByRole('heading', { level: 1 }).waitFor()
    await person.context.close()
  }

  await manager.page.getByRole('link', { name: 'People' }).click()
  await expect.poll(() => manager.page.getByRole('row').filter({ hasText: 'Accepted' }).count()).toBe(4)
  const table = manager.page.getByRole('table', { name: 'People of the laboratory' })
  for (const name of ['Ada Lindqvist', 'Bram Osei', 'Elin Marsh', 'Ines Calder'])
    await table.getByRole('row').filter({ hasText: name }).waitFor()

  await manager.page.goto('/first-run')
  await manager.page.getByRole('heading', { name: 'The laboratory stands' }).waitFor()
  await manager.page.goto(links[0]!)
  await manager.page.getByRole('heading', { name: 'This invitation is not open' }).waitFor()
  expect(journey.faults).toEqual([])
})

async function refuseAWrongCode({ page }: Person) {
  await page.goto('/first-run')
  await fillFirstRun(page, 'not-the-code')
  await page.getByRole('button', { name: 'Make the laboratory' }).click()
  const code = page.getByLabel('One-time code')
  await expect.poll(() => code.getAttribute('aria-invalid')).toBe('true')
  expect(await page.title()).toMatch(/^Error:/)
  expect(await code.inputValue()).toBe('not-the-code')
  expect(await page.getByLabel('Name, as it stands on reports').inputValue()).toBe('Tern Hollow Surfacing Laboratory')
}

async function makeLaboratory({ page }: Person) {
  await page.getByLabel('One-time code').fill(setupCode)
  await page.getByRole('button', { name: 'Make the laboratory' }).click()
  await page.waitForURL(/\/sign-in$/)
}

async function fillFirstRun(page: Person['page'], code: string) {
  await page.getByLabel('One-time code').fill(code)
  await page.getByLabel('Name, as it stands on reports').fill('Tern Hollow Surfacing Laboratory')
  await page.getByLabel('Short name').fill('tern-hollow')
  await page.getByLabel('Time zone').selectOption('Europe/London')
  const manager = page.getByRole('group', { name: 'You, the first manager' })
  await manager.getByLabel('Name').fill('Marek Dunmore')
  await manager.getByLabel('Initials').fill('MD')
  await manager.getByLabel('E-mail address').fill(`manager@${domain}`)
  await manager.getByLabel('Password', { exact: true }).fill(password)
}

async function enterClient({ page }: Person, name: string) {
  await page.getByRole('link', { name: 'Projects' }).click()
  await page.getByRole('link', { name: 'Clients' }).click()
  await page.getByRole('button', { name: 'Enter a client' }).first().click()
  const dialog = page.getByRole('dialog', { name: 'Enter a client' })
  await dialog.getByLabel('Client’s name').fill(name)
  await dialog.getByRole('button', { name: 'Enter the client' }).click()
  await dialog.waitFor({ state: 'detached' })
}
