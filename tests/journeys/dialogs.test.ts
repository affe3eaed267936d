import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { focused, settled } from '../support/journey-accessibility.ts'
import { cloneDemo, demoNow, demoPassword, type Demo } from '../support/journey-demo.ts'
import { withServices } from '../support/journey-laboratory.ts'

/** Dialogs come when they are opened: where the focus begins, what is said of one that cannot come, and a refusal read in its own. */

const lab = '/l/ternhollow'
const now = '2026-11-25T10:30:00Z'
let journey: Journey
let demo: Demo
/** Two specifications of one's own. */
let specifications: readonly [string, string]

beforeAll(async () => {
  const made = await cloneDemo()
  demo = made.demo
  journey = await startJourney({ at: demoNow, clone: made.clone })
  specifications = await withServices(journey.product, demoNow, async ({ services }) => {
    const [builtIn] = (await services.specifications.builtIn()).items
    const { aggregateType, traffic } = builtIn!.variants[0]!
    const adopt = async (name: string) =>
      (
        await services.specifications.adopt(demo.people.engineer, {
          ...{ id: newId(), builtInKey: builtIn!.key, name, aggregateType, traffic, changes: [] },
        })
      ).value.id
    return [await adopt('County limits'), await adopt('Town limits')]
  })
  await journey.clockTo(now)
})
afterAll(() => journey?.close())

async function arriveAs(name: string): Promise<Person> {
  const person = await journey.arrive()
  await signIn(person, `${name}@ternhollow.example`, demoPassword)
  await settled(person.page)
  return person
}
const alert = (page: Page) => page.getByRole('alert').filter({ hasText: 'not on this device yet' })

const headingShows = `(() => {
  const box = document.querySelector('h1').getBoundingClientRect()
  return document.elementFromPoint(box.x + 5, box.y + box.height / 2)?.closest('h1') !== null
})()`
/** Another tab of this device has locked the screen. */
const lockedElsewhere = `(async () => {
  const { memberships } = await (await fetch('/api/session')).json()
  localStorage.setItem('curebook-locked', memberships[0].membershipId)
  window.dispatchEvent(new StorageEvent('storage'))
})()`

test('a piece that cannot come says so with a way on, and comes when it can; the focus is seen where it begins', async () => {
  const { page } = await arriveAs('technician')
  await page.goto(`${lab}/bench`)
  await settled(page)
  const pieces = '**/_next/static/**'
  await page.route(pieces, (route) => route.abort())
  await page.getByRole('button', { name: 'Change person' }).click()
  await alert(page).waitFor()
  expect(await focused(page)).toMatchObject({ name: 'Retry', covered: false })
  await alert(page).getByRole('button', { name: 'Close' }).click()
  await alert(page).waitFor({ state: 'detached' })
  await page.getByRole('heading', { level: 1, name: 'Bench' }).waitFor()
  await page.getByRole('button', { name: 'Change person' }).click()
  await alert(page).waitFor()
  await page.unroute(pieces)
  await alert(page).getByRole('button', { name: 'Retry' }).click()
  await page.getByRole('dialog').waitFor()
  await expect.poll(() => page.evaluate(`document.activeElement.closest('[role=dialog]') !== null`)).toBe(true)
  expect(await focused(page)).toMatchObject({ seen: true, covered: false })
})

test('help is read from its heading, and a key meant for the page turns nothing off', async () => {
  const { page } = await arriveAs('technician')
  await page.getByRole('button', { name: 'Help' }).click()
  await expect.poll(() => focused(page)).toMatchObject({ name: 'Help', seen: true })
  const keys = page.getByRole('dialog').getByRole('checkbox')
  const before = await keys.isChecked()
  await page.keyboard.press('Space')
  expect(await keys.isChecked()).toBe(before)
})

test('the page is covered where nobody has touched it, though its lock cannot be fetched', async () => {
  const { page } = await arriveAs('technician')
  await page.reload()
  await settled(page)
  const pieces = '**/_next/static/**'
  await page.route(pieces, (route) => route.abort())
  expect(await page.evaluate(headingShows)).toBe(true)
  await page.evaluate(lockedElsewhere)
  await alert(page).waitFor()
  expect(await page.evaluate(headingShows)).toBe(false)
  // No key reaches the page beneath: what is typed goes nowhere, and Tab stays with what the cover shows.
  await page.keyboard.type('7KD2')
  expect(await page.getByLabel('Code of a specimen or batch').inputValue()).toBe('')
  for (let presses = 0; presses < 4; presses += 1) {
    await page.keyboard.press('Tab')
    expect(await page.evaluate(`document.activeElement.closest('header, nav, main')?.localName ?? null`)).toBeNull()
  }
  await page.unroute(pieces)
  await alert(page).getByRole('button', { name: 'Retry' }).click()
  await page.getByRole('dialog').getByRole('heading', { level: 2 }).waitFor()
})

test('a specification is withdrawn with its reason; refused, that is read in the dialog whatever stands by then', async () => {
  const { page } = await arriveAs('engineer')
  const open = async (id: string) => {
    await page.goto(`${lab}/specifications/${id}`)
    await settled(page)
    await page.getByRole('button', { name: 'Withdraw', exact: true }).click()
  }
  const dialog = page.getByRole('dialog', { name: /^Withdraw / })
  const reason = dialog.getByLabel('Why it is withdrawn')
  await open(specifications[0])
  await reason.waitFor()
  await expect.poll(() => focused(page)).toMatchObject({ name: 'TEXTAREA', seen: true })
  await dialog.getByRole('button', { name: 'Withdraw', exact: true }).click()
  await dialog.getByRole('alert').first().waitFor()
  await reason.fill('Followed by the new standard')
  await dialog.getByRole('button', { name: 'Withdraw', exact: true }).click()
  await dialog.waitFor({ state: 'detached' })
  await page.getByText('withdrawn', { exact: false }).first().waitFor()
  expect(await page.getByRole('button', { name: 'Withdraw', exact: true }).count()).toBe(0)

  await open(specifications[1])
  await reason.fill('Followed by the new standard')
  await withServices(journey.product, now, ({ services }) =>
    services.specifications.withdraw(demo.people.engineer, specifications[1], { id: newId(), reason: 'Typed twice' }),
  )
  await dialog.getByRole('button', { name: 'Withdraw', exact: true }).click()
  await dialog.getByRole('alert').first().waitFor()
  expect(await reason.inputValue()).toBe('Followed by the new standard')
  await page.keyboard.press('Escape')
  await dialog.waitFor({ state: 'detached' })
})
