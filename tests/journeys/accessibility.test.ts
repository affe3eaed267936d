import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { TestApp } from '../support/app.ts'
import { confirm } from '../support/factories/bench.ts'
import type { TestLaboratory } from '../support/factories/laboratory.ts'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { faultsOf, focused, settled, widths } from '../support/journey-accessibility.ts'
import { faultsOnTheWay } from '../support/journey-accessibility-devices.ts'
import { cloneDemo, demoNow as now, demoPassword as password, type Demo } from '../support/journey-demo.ts'
import { withServices } from '../support/journey-laboratory.ts'
import { isWhollySeen } from '../support/journey-looks.ts'

/** Every screen, with the demonstration laboratory's content on it: axe at three widths, one of them dark; and the keyboard alone. */

const lab = '/l/ternhollow'
let journey: Journey
let places: Awaited<ReturnType<typeof placesOf>>

beforeAll(async () => {
  const { clone, demo } = await cloneDemo()
  journey = await startJourney({ at: now, clone })
  places = await withServices(journey.product, now, (testApp) => placesOf(testApp, demo))
  await journey.clockTo('2026-11-25T10:30:00Z')
})
afterAll(() => journey?.close())

async function look(person: Person, addresses: Readonly<Record<string, string>>): Promise<string[]> {
  const faults: string[] = []
  for (const [screen, address] of Object.entries(addresses)) {
    await person.page.setViewportSize({ width: 1280, height: 900 })
    await person.page.goto(address)
    await settled(person.page)
    faults.push(...(await faultsOf(person.page, screen)))
  }
  return faults
}

async function arriveAs(name: string): Promise<Person> {
  const person = await journey.arrive()
  await signIn(person, `${name}@ternhollow.example`, password)
  await settled(person.page)
  return person
}

test('screens before signing in', async () => {
  const person = await journey.arrive()
  const faults = await look(person, {
    'sign in': '/sign-in',
    'first run': '/first-run',
    invitation: '/invitation',
    'check a report': '/check',
    'report checked': places.check,
    'no such page': '/nothing-here',
  })
  expect(faults).toEqual([])
})

test('screens of the bench', async () => {
  const technician = await arriveAs('technician')
  const faults = await look(technician, {
    bench: `${lab}/bench`,
    rack: places.rack,
    steps: places.steps,
    'casting order': `${lab}/bench/casting/${places.verification}`,
    'put-in list': places.putIn,
    'bench sheet': places.sheet,
    'bench sheet, entering': places.sheetEntry,
    batch: `${lab}/bench/tests/${places.batch}`,
    specimen: `${lab}/bench/tests/${places.done}`,
    'ovens and baths': `${lab}/ovens`,
    quality: `${lab}/quality?show=all`,
    account: `${lab}/account`,
  })
  expect(faults).toEqual([])
})

test('screens of the desk', async () => {
  const manager = await arriveAs('manager')
  const faults = await look(manager, {
    schedule: `${lab}/schedule`,
    projects: `${lab}/projects`,
    project: `${lab}/projects/${places.project}`,
    'new project': `${lab}/projects/new`,
    clients: `${lab}/projects/clients`,
    materials: `${lab}/materials`,
    'new sample': `${lab}/materials/new`,
    sample: `${lab}/materials/${places.sample}`,
    labels: `${lab}/materials/${places.sample}/labels`,
    'what a specimen is made of': `${lab}/materials/${places.specimen}`,
    places: `${lab}/materials/places`,
    stock: `${lab}/materials/stock`,
    specifications: `${lab}/specifications`,
    'guideline values': `${lab}/specifications?tab=built-in`,
    specification: `${lab}/specifications/${places.specification}`,
    'adopt a specification': `${lab}/specifications/new`,
    instruments: `${lab}/instruments`,
    instrument: `${lab}/instruments/${places.machine}`,
    'new instrument': `${lab}/instruments/new`,
    methods: `${lab}/methods`,
    method: `${lab}/methods/cohesion`,
    'change a bound, of two editions': `${lab}/methods/wet-track-abrasion-en/change`,
    people: `${lab}/people`,
    settings: `${lab}/settings`,
    validation: `${lab}/validation`,
    ledger: `${lab}/ledger`,
  })
  expect(faults).toEqual([])
})

test('screens of a design', async () => {
  const engineer = await arriveAs('engineer')
  const tabs = ['overview', 'series', 'specimens', 'results', 'recommendation', 'review', 'report']
  const faults = await look(engineer, {
    designs: `${lab}/designs`,
    'new design': `${lab}/designs/new`,
    ...Object.fromEntries(tabs.map((tab) => [`design, ${tab}`, `${lab}/designs/${places.design}?tab=${tab}`])),
    'two designs compared': `${lab}/designs/compare?a=${places.design}&b=${places.verification}`,
    'verification, review': `${lab}/designs/${places.verification}?tab=review`,
    'verification, results': `${lab}/designs/${places.verification}?tab=results`,
  })
  expect(faults).toEqual([])
})

test('the table of verdicts is read in one look, of a design with most of its panel judged and some of it undecided', async () => {
  const { page } = await arriveAs('engineer')
  await page.setViewportSize({ width: 1280, height: 900 })
  await page.goto(`${lab}/designs`)
  const design = page.getByRole('link', { name: 'Micro-surfacing Type II, all contents meet' }).first()
  await page.goto(`${await design.getAttribute('href')}?tab=review`)
  const short = page.getByRole('table', { name: 'What was judged, in short' })
  await short.getByText('Undecided').first().waitFor()
  await settled(page)
  expect(await short.getByRole('row').count()).toBeGreaterThan(10)
  expect(await isWhollySeen(page, short)).toBe(true)
})

test('screens of the client', async () => {
  const client = await arriveAs('client')
  const faults = await look(client, {
    projects: `${lab}/projects`,
    project: `${lab}/projects/${places.project}`,
    account: `${lab}/account`,
  })
  expect(faults).toEqual([])
})

test('what goes from hand to hand, and from devices to pages', async () => {
  expect(await faultsOnTheWay(journey, arriveAs, { lab, ...places })).toEqual([])
})

test('dialogs', async () => {
  const manager = await arriveAs('manager')
  const faults: string[] = []
  for (const [address, button] of [
    [`${lab}/projects/clients`, 'Enter a client'],
    [`${lab}/people`, 'Invite a person'],
    [`${lab}/people`, 'Authorise a person'],
    [`${lab}/people`, 'Cut off the device of'],
    [`${lab}/ovens`, 'Enter a value for BATH-1'],
    [`${lab}/ovens`, 'Key of the logger on BATH-1'],
    [`${lab}/instruments/${places.machine}`, 'Enter a calibration'],
  ] as const) {
    await manager.page.goto(address)
    await settled(manager.page)
    await manager.page.getByRole('button', { name: button }).first().click()
    await manager.page.getByRole('dialog').waitFor()
    faults.push(...(await faultsOf(manager.page, `dialog: ${button}`)))
    await manager.page.keyboard.press('Escape')
    await manager.page.getByRole('dialog').waitFor({ state: 'detached' })
  }
  expect(faults).toEqual([])
})

test('what is amiss on a screen is told, at every width', async () => {
  const { page } = await journey.arrive()
  await page.goto('/sign-in')
  await settled(page)
  await page.evaluate(
    `document.querySelector('main').insertAdjacentHTML('beforeend', '<img src="data:,"><p style="color:#999;background:#888">pale</p>')`,
  )
  const told = (await faultsOf(page, 'sign in')).join('\n')
  for (const width of widths)
    for (const rule of ['image-alt', 'color-contrast'])
      expect(told).toMatch(new RegExp(`${width}, (light|dark): ${rule}`))
})

test('signing in by keyboard alone, the focus always in sight', async () => {
  const { page } = await journey.arrive()
  await page.goto('/sign-in')
  await settled(page)
  await tabTo(page, 'E-mail address')
  await page.keyboard.type('technician@ternhollow.example')
  await page.keyboard.press('Tab')
  await page.keyboard.type(password)
  await page.keyboard.press('Enter')
  await page.waitForURL(/\/bench$/)
  await settled(page)

  const hidden: string[] = []
  const first = (await focused(page)).name
  for (let steps = 0; steps < 60; steps += 1) {
    await page.keyboard.press('Tab')
    const { name, seen, covered } = await focused(page)
    if (name === first || name === 'BODY') break
    if (!seen) hidden.push(`${name}: no sign of the focus`)
    if (covered) hidden.push(`${name}: something lies over it`)
  }
  expect(hidden).toEqual([])
})

test('a rack weighed by keyboard alone', async () => {
  const { page } = await arriveAs('technician')
  await page.goto(places.rack)
  await settled(page)
  await page.getByText(/Expected next/).waitFor()
  const code = page.getByLabel('Code of the specimen on the balance')
  for (const [index, weight] of ['766.2', '773.5', '781.0'].entries()) {
    await code.and(page.locator(':focus')).waitFor()
    await page.keyboard.press('Enter')
    await page.locator('input[name=typed]:focus').waitFor()
    await page.keyboard.type(weight)
    await page.keyboard.press('Enter')
    await page.getByText(`${index + 1} of 3 done.`).waitFor()
  }
  expect(journey.faults).toEqual([])
})

/** Presses Tab until the field with this label has the focus. */
async function tabTo(page: Page, label: string) {
  for (let steps = 0; steps < 12; steps += 1) {
    if (await page.getByLabel(label).and(page.locator(':focus')).isVisible()) return
    await page.keyboard.press('Tab')
  }
  throw new Error(`Tab does not reach “${label}”`)
}

/** The demonstration laboratory an hour after three discs came out of the oven, and where its screens are. */
async function placesOf(testApp: TestApp, demo: Demo) {
  const { services, clock } = testApp
  const { engineer, manager, technician } = demo.people
  const { items: designs } = await services.designs.list(engineer, { limit: 10 })
  const verification = designs.find(({ id }) => id !== demo.designId)!.id
  const one = await services.designs.read(engineer, demo.designId)
  const { items: done } = await services.designs.specimens(engineer, demo.designId)
  const { items: waiting } = await services.designs.specimens(engineer, verification)
  const discs = waiting.filter(({ methodKey }) => methodKey === 'wet-track-abrasion-1h').map(({ testId }) => testId)
  const bench = { people: { technician: { actor: technician } } } as unknown as TestLaboratory
  clock.set(now)
  await confirm(testApp, bench, discs, 'cure', 'end')
  clock.advance({ hours: 1 })
  await confirm(testApp, bench, discs, 'cool', 'end')
  const { items: instruments } = await services.instruments.list(manager)
  const { items: specifications } = await services.specifications.list(manager)
  const act = { methodKey: 'wet-track-abrasion-1h', designId: verification }
  return {
    design: demo.designId,
    verification,
    project: one.projectId,
    specification: specifications[0]!.id,
    balance: instruments.find(({ kind }) => kind === 'balance')!.id,
    machine: instruments.find(({ kind }) => kind === 'wet-track-machine')!.id,
    sample: one.materials.emulsion.id,
    specimen: done[0]!.itemId,
    done: done[0]!.testId,
    batch: waiting.find(({ methodKey }) => methodKey === 'wet-track-abrasion-6d')!.batchTestId,
    rack: `${lab}/bench/rack?${new URLSearchParams({ ...act, stepKey: 'weigh-before', test: discs[0]! })}`,
    steps: `${lab}/bench/steps?${new URLSearchParams({ ...act, stepKey: 'cool', act: 'end' })}`,
    putIn: `${lab}/bench/put-in?${new URLSearchParams(act)}`,
    sheet: `${lab}/bench/sheet?${new URLSearchParams({ ...act, stepKey: 'weigh-before' })}`,
    sheetEntry: `${lab}/bench/sheet?${new URLSearchParams({ ...act, stepKey: 'abrade', tab: 'enter' })}`,
    check: '/check/AAAA-AAAA',
  }
}
