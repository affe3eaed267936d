import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { faultsOf, focused, settled } from '../support/journey-accessibility.ts'
import { weighBatches } from '../support/journey-bench.ts'
import { cloneDemo, demoNow, demoPassword, type Demo } from '../support/journey-demo.ts'

/** A test beside the series: planned on a design's Tests page, done at the bench, judged and drawn on that page again. */

const lab = '/l/ternhollow'
const desk = { width: 1280, height: 900 }
let journey: Journey
let demo: Demo
let engineer: Person, technician: Person
let page: Page
/** Short code of the set of rings. */
let code = ''

beforeAll(async () => {
  const made = await cloneDemo()
  demo = made.demo
  journey = await startJourney({ at: demoNow, clone: made.clone })
  await journey.clockTo('2026-11-25T10:30:00Z')
  engineer = await arriveAs('engineer')
  technician = await arriveAs('technician')
  page = engineer.page
})
afterAll(() => journey?.close())

async function arriveAs(name: string): Promise<Person> {
  const person = await journey.arrive()
  await signIn(person, `${name}@ternhollow.example`, demoPassword)
  await settled(person.page)
  return person
}

async function openTests(design: string) {
  await page.setViewportSize(desk)
  await page.goto(`${lab}/designs/${design}?tab=tests`)
  await settled(page)
}
const dialog = () => page.getByRole('dialog', { name: 'Plan a test beside the series' })
const rowOf = (property: string) => page.getByRole('row').filter({ hasText: property })
const planOf = (property: string) => page.getByRole('button', { name: `Plan ${property}` })

test('the Tests page says what is done, running, waiting and missing, draws it, and can be read at every width', async () => {
  await openTests(demo.others.open)
  const asked = page.getByRole('table', { name: 'What the panel asks for' })
  for (const [property, state] of [
    ['Cohesion at 30 min', 'Done, 2 of 2'],
    ['Compatibility of aggregate, filler and binder', 'Running, 0 of 1 done'],
    ['Sand equivalent', 'Missing'],
    ['Residue of the emulsion', 'Entered'],
  ] as const)
    await asked.getByRole('row').filter({ hasText: property }).getByText(state, { exact: true }).waitFor()
  const beside = page.getByRole('table', { name: 'Tests beside the series' })
  await beside.getByRole('row').filter({ hasText: 'Compatibility in the cup' }).getByText('Waiting').waitFor()
  for (const title of ['Torque over time', 'Mix time by temperature', 'Displacement under the wheel'])
    await page.getByRole('figure').filter({ hasText: title }).waitFor()
  expect(await faultsOf(page, 'Tests')).toEqual([])
})

test('the plan is walked by keyboard; what is wrong is said beside its field, and what was typed stays', async () => {
  await openTests(demo.verificationId)
  await rowOf('Cohesion at 30 min').getByText('Missing').waitFor()
  await planOf('Cohesion at 30 min').focus()
  await page.keyboard.press('Enter')
  await dialog().waitFor()
  const many = dialog().getByLabel('How many')
  await many.waitFor()
  // As many as the edition in force asks for.
  expect(await many.inputValue()).toBe('3')
  await dialog().getByText('3 are asked for: common practice, no source.').waitFor()
  const walked: string[] = []
  for (let step = 0; step < 8 && walked.at(-1) !== 'Plan'; step += 1) {
    await page.keyboard.press('Tab')
    const { name, seen, covered } = await focused(page)
    expect({ name, seen, covered }).toEqual({ name, seen: true, covered: false })
    walked.push(name)
  }
  expect(walked.at(-1)).toBe('Plan')

  await many.fill('two')
  await dialog().getByLabel('Emulsion content').selectOption({ label: 'Another content' })
  await dialog().getByLabel('Emulsion', { exact: true }).fill('12,x')
  // With the pointer, from the field that is left by it.
  await many.focus()
  await dialog().getByRole('button', { name: 'Plan', exact: true }).click()
  const summary = dialog().getByRole('alert')
  await summary.getByText('2 things to put right').waitFor()
  await summary.getByRole('button', { name: 'Emulsion: a number in per cent, like 12.5.' }).waitFor()
  expect(await faultsOf(page, 'plan of a test, with what is wrong')).toEqual([])
  await page.setViewportSize(desk)
  await summary.getByRole('button', { name: 'Enter a whole number from 1 to 10.' }).press('Enter')
  await many.and(page.locator(':focus')).waitFor()
  expect(await many.inputValue()).toBe('two')
  expect(await dialog().getByLabel('Emulsion', { exact: true }).inputValue()).toBe('12,x')

  await dialog().getByLabel('Emulsion content').selectOption({ label: '12 %' })
  await many.fill('1')
  await many.press('Enter')
  await dialog().waitFor({ state: 'detached' })
  await page.getByText('Planned: Cohesion: set and cure.').waitFor()
  await rowOf('Cohesion at 30 min').getByText('Planned, 1').waitFor()
  await rowOf('Cohesion at 30 min').getByText('0 of 3 asked for count at 12 %, one is not done yet').waitFor()
  const made = page
    .getByRole('table', { name: 'Tests beside the series' })
    .getByRole('row')
    .filter({ hasText: 'Cohesion' })
  await made.getByText('Next: Weigh the components').waitFor()
  code = /[0-9A-Z]{4}/.exec(await made.getByRole('link').innerText())?.[0] ?? ''
  expect(code).not.toBe('')
})

test('at the bench its batch comes first, then the rings are cast and twisted at 30 and 60 min', async () => {
  const bench = technician.page
  await page.getByRole('link', { name: code }).click()
  // The specimen leads whoever opens it to its batch.
  await page.getByText('Its batch is not weighed and mixed yet.').waitFor()

  await bench.getByLabel('Code of a specimen or batch').fill(code)
  await bench.keyboard.press('Enter')
  await weighBatches(bench, 1, {
    of: () => ({ aggregate: '400.0', filler: '4.0', additive: '0.8', water: '40.0', emulsion: '48.2' }),
    before: () => Promise.resolve(),
  })
  // No other batch is waited for: what is made of the mix comes next, and says so.
  await bench.getByRole('link', { name: /^Check the tester and the room: 12-1, Cohesion$/ }).click()
  const type = async (label: string, typed: string) => {
    const field = bench.getByLabel(new RegExp(`^${label} of 12-`))
    await field.fill(typed)
    await field.press('Enter')
  }
  await type('Temperature at the rings', '24.8')
  await bench.getByRole('button', { name: 'Confirm “First ring cast”' }).click()
  for (const [at, minute, torque, broke] of [
    ['11:00', '30', '12.5', /^N, normal/],
    ['11:30', '60', '20.5', /^NS, near spin/],
  ] as const) {
    await bench.getByRole('heading', { level: 2, name: `Twist at ${minute} min` }).waitFor()
    await journey.clockTo(`2026-11-25T${at}:00Z`)
    await type('Age of the ring', minute)
    await type('Torque', torque)
    await bench.getByRole('button', { name: broke }).click()
  }
  await bench.getByText('All steps are done').waitFor()
})

test('the engineer sees value, verdict, chart and class', async () => {
  await openTests(demo.verificationId)
  for (const [minute, value] of [
    ['30', '12.5'],
    ['60', '20.5'],
  ] as const) {
    const row = rowOf(`Cohesion at ${minute} min`).first()
    await row.getByText('Done, 1 of 1').waitFor()
    await row.getByText('1 of 3 asked for count at 12 %').waitFor()
    expect((await row.innerText()).replaceAll(/\s+/g, ' ')).toMatch(new RegExp(`${value} kg·cm .*Pass`))
  }
  const found = page.getByRole('table', { name: 'Tests beside the series' }).getByRole('row').filter({ hasText: code })
  expect(await found.innerText()).toMatch(/Set: Quick-set[^]*Traffic: Quick-traffic/)
  const chart = page.getByRole('figure').filter({ hasText: 'Torque over time' })
  await chart.getByText(`(${code}), 2 points`).waitFor()
  const point = chart.getByRole('button', { name: new RegExp(`${code}: 60\\smin, 20\\.5`) })
  await point.focus()
  await chart.getByRole('status').getByText(/20\.5/).waitFor()
  expect(journey.faults).toEqual([])
})
