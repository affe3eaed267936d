import type { Page } from 'playwright-core'
import type { Journey, Person } from './journey.ts'
import { faultsOf, focused, settled } from './journey-accessibility.ts'
import { giveCamera, holdUp } from './journey-devices.ts'

type Places = {
  readonly lab: string
  readonly rack: string
  readonly balance: string
}
const codeOn = (page: Page) => page.getByText(/^[A-HJKMNP-Z2-9]{4}-[A-HJKMNP-Z2-9]{4}$/).innerText()

/**
 * What is on the way from one to another, each as it stands in the middle of it: work handed over and looked at, a label
 * before the camera, a weight awaited at a rack, a balance that is told of, a wall screen from its code to its end.
 */
export async function faultsOnTheWay(
  journey: Journey,
  arriveAs: (name: string) => Promise<Person>,
  { lab, rack, balance }: Places,
): Promise<string[]> {
  const faults: string[] = []
  const look = async (page: Page, screen: string) => {
    faults.push(...(await faultsOf(page, screen)))
    await page.setViewportSize({ width: 1280, height: 800 })
    faults.push(...(await tabThrough(page)).map((fault) => `${screen}: ${fault}`))
  }

  const technician = await arriveAs('technician')
  const { page } = technician
  await giveCamera(technician.context)
  await page.goto(`${lab}/bench/hand-over`)
  await page.getByRole('button', { name: 'Show the code' }).click()
  const code = await codeOn(page)
  await look(page, 'hand-over')
  const other = (await arriveAs('engineer')).page
  for (const [screen, typed, words] of [
    ['take-over', code, /hands this over/],
    ['take-over, another code', 'AAAA-AAAA', /Nobody hands over work under this code/],
  ] as const) {
    await other.goto(`${lab}/bench/take-over#${typed.replace('-', '')}`)
    await other.getByText(words).waitFor()
    await look(other, screen)
  }

  await page.goto(`${lab}/bench`)
  await page.getByRole('button', { name: 'Scan with the camera' }).click()
  await page.getByLabel('Picture of the camera').waitFor()
  await holdUp(page, 'ZZZZ')
  await page
    .getByRole('dialog')
    .getByText(/No specimen “ZZZZ” here/)
    .waitFor()
  await look(page, 'camera')
  await page.goto(rack)
  await page.getByText(/Expected next/).waitFor()
  await page.keyboard.press('Enter')
  await page.locator('input[name=typed]:focus').waitFor()
  await look(page, 'rack, a weight awaited')

  const manager = (await arriveAs('manager')).page
  await manager.goto(`${lab}/instruments/${balance}`)
  await settled(manager)
  await manager.getByRole('button', { name: /how it sends$/ }).click()
  const line = manager.getByRole('dialog')
  await line.getByLabel('One line as it came').fill('ST,GS,+  0812.4 g')
  await line.getByLabel('The number shown then').fill('812.4')
  await line.getByText(/^Understood/).waitFor()
  await look(manager, 'how a balance sends')

  await manager.goto(`${lab}/settings`)
  await manager.getByRole('button', { name: 'Make a wall screen' }).click()
  await manager.getByRole('dialog').getByLabel('Name').fill('Bench room')
  await manager.getByRole('button', { name: 'Make it and show the code' }).click()
  const pairing = await codeOn(manager)
  await look(manager, 'code of a wall screen')
  const wall = (await journey.arrive()).page
  await wall.goto('/wall')
  await settled(wall)
  await look(wall, 'wall screen, before its code')
  await wall.getByLabel('Pairing code').fill(pairing)
  await wall.keyboard.press('Enter')
  await wall.getByRole('heading', { name: 'Ovens and baths' }).waitFor()
  await look(wall, 'wall screen')
  await manager.keyboard.press('Escape')
  await manager.getByRole('button', { name: 'End Bench room' }).click()
  await manager.getByRole('row').filter({ hasText: 'Bench room' }).getByText('Ended').waitFor()
  await wall.reload()
  await wall.getByRole('heading', { name: /is no wall screen any more/ }).waitFor()
  await look(wall, 'wall screen, ended')
  return faults
}

/** Goes on by Tab until it comes round: where the focus does not show, and what lies over it. */
export async function tabThrough(page: Page, most = 90): Promise<string[]> {
  const faults: string[] = []
  await page.keyboard.press('Tab')
  const first = (await focused(page)).name
  for (let steps = 0; steps < most; steps += 1) {
    const { name, seen, covered } = await focused(page)
    if (steps > 0 && name === first) break
    if (!seen) faults.push(`${name}: no sign of the focus`)
    if (covered) faults.push(`${name}: something lies over it`)
    await page.keyboard.press('Tab')
  }
  return faults
}
