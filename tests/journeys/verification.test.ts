import { afterAll, beforeAll, expect, test } from 'vitest'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { adhesion, at, design, oneHour, samples, sixDay } from '../support/journey-design.ts'
import {
  adoptSpecification,
  assignAll,
  enterFactor,
  enterInstrument,
  enterProject,
  enterValue,
  makeDesign,
  openScreen,
  planSeries,
  readSpecimens,
  receiveSample,
} from '../support/journey-desk.ts'
import { machines } from '../support/journey-design.ts'
import { makeJourneyLaboratory, type JourneyLaboratory } from '../support/journey-laboratory.ts'
import { createBenchStory, type BenchStory } from '../support/journey-story.ts'

/** A verification at one content: three discs of the reference design's 12 %, to the table of verdicts. */

let journey: Journey
let lab: JourneyLaboratory
let manager: Person, engineer: Person
let bench: BenchStory
const name = 'Verification at 12 %'

beforeAll(async () => {
  journey = await startJourney({ at: at(1, '08:30') })
  lab = await makeJourneyLaboratory(journey.product, { at: at(1, '08:00') })
  manager = await journey.arrive()
  await signIn(manager, lab.emails.manager, lab.password)
})
afterAll(() => journey?.close())

test('project, samples, machine and design stand, with one content of three discs', async () => {
  const { page } = manager
  await enterProject(page, {
    client: 'Pellworth Airfield Trust',
    name: 'Pellworth taxiway',
    kind: 'Verification at one content',
  })
  const adopted = { builtIn: 'issa-a143-2010', type: 'Type II', traffic: 'heavy', name: 'Airfield copy' }
  await adoptSpecification(page, adopted)
  const needed = samples.filter(({ field }) => field === 'Aggregate' || field === 'Emulsion')
  for (const sample of needed) await receiveSample(page, '2026-03-02', sample)
  const [{ factors, ...machine }] = machines as [(typeof machines)[number]]
  await enterInstrument(page, machine)
  for (const factor of factors) await enterFactor(page, { ...machine, ...factor })

  await journey.clockTo(at(2, '16:00'))
  engineer = await journey.arrive()
  await signIn(engineer, lab.emails.engineer, lab.password)
  await makeDesign(engineer.page, {
    project: 'Pellworth taxiway',
    name,
    specification: adopted.name,
    samples: Object.fromEntries(needed.map((sample) => [sample.field, sample.name])),
    fraction: design.fractionUsed.disc,
    scalped: '',
  })
  const { residuePercent, moisturePercent } = design
  await enterValue(engineer.page, 'residue', {
    value: residuePercent,
    source: 'Supplier’s certificate 4417',
    on: '2026-03-02',
  })
  await enterValue(engineer.page, 'moisture', { value: moisturePercent, source: 'Own test', on: '2026-03-03' })
  const content = design.contents.filter(({ emulsionPercent }) => emulsionPercent === '12')
  await planSeries(engineer.page, content, { [oneHour]: 3, [sixDay]: 0, [adhesion]: 0 })
  const specimens = await readSpecimens(engineer.page, 3)
  expect(specimens.map(({ label }) => label)).toEqual(['12-1', '12-2', '12-3'])

  const technician = await journey.arrive({ viewport: { width: 768, height: 1024 }, hasTouch: true })
  await signIn(technician, lab.emails.technician, lab.password)
  bench = createBenchStory({ journey, technician, shortName: lab.shortName, specimens, contents: ['12'] })
})

test('three discs are cast, soaked, abraded and weighed', async () => {
  await journey.clockTo(at(3, '08:30'))
  await assignAll(manager.page, { test: oneHour, to: 'Ada Lindqvist', count: 3 })
  await bench.castDiscs(oneHour, 3, { first: '09:00', every: 9 })
  await bench.outOfTheOven(oneHour, 'Cure in the oven', 4, { out: '08:35', cooled: '09:36' })
  await bench.weigh(oneHour, 'Weigh after cure (W1)', { key: 'w1', day: 4, time: '09:40' })
  const order = ['12-1', '12-2', '12-3']
  await bench.oneByOne(oneHour, 'In the bath', { step: 'Soak in the bath', day: 4, first: '10:20', every: 15, order })
  await bench.oneByOne(oneHour, 'Run started', { step: 'Abrade', day: 4, first: '11:22', every: 15, order })
  await bench.intoTheOven(oneHour, 'Dry back', 4, '15:05')
  await bench.outOfTheOven(oneHour, 'Dry back', 5, { out: '08:00', cooled: '08:58' })
  await bench.weigh(oneHour, 'Weigh after dry back (W2)', { key: 'w2', day: 5, time: '09:00' })
})

test('the table of verdicts says what passes and what was not tested, and no range is sought', async () => {
  const { page } = engineer
  await openScreen(page, 'Designs')
  await page.getByRole('link', { name }).click()
  await page.getByRole('link', { name: 'Results and range' }).click()
  const panel = page.getByRole('table', { name: 'Panel' })
  const abrasion = panel.getByRole('row').filter({ hasText: '538' }).filter({ hasText: 'Pass' })
  expect(await abrasion.first().innerText()).toContain('296')
  expect(await panel.getByText('Not tested').count()).toBeGreaterThan(4)
  expect(await page.getByRole('main').innerText()).not.toMatch(/6\.905|midpoint of/)
  const range = page.getByRole('region', { name: 'Acceptable range' })
  expect(await range.innerText()).toContain('there is no curve and no range')
  expect(await page.getByRole('region', { name: /^(Minimum|Midpoint|Maximum)$/ }).count()).toBe(0)
  expect(journey.faults).toEqual([])
})

test('what if a disc were left out is answered apart, and the disc is found by its code', async () => {
  const { page } = engineer
  const disc = await page
    .getByRole('table', { name: /results?$/ })
    .getByRole('link', { name: /^12-1 \(/ })
    .innerText()
  const code = /\((\w+)\)/.exec(disc)![1]!
  await page.getByRole('button', { name: 'Ask what the range would be without a specimen' }).click()
  await page.getByRole('checkbox', { name: disc }).check()
  await page.getByRole('button', { name: 'Compute without one specimen' }).click()
  const answer = page.getByRole('region', { name: `What if: without ${disc}` })
  await answer.getByText('Not recorded').waitFor()
  expect(await answer.getByRole('table', { name: 'Means by content' }).innerText()).toMatch(/3 against 2/)
  // What stands is untouched.
  const panel = page.getByRole('region', { name: 'Panel', exact: true })
  expect(await panel.getByRole('table').innerText()).toContain('296')

  await page.keyboard.press('Control+k')
  const find = page.getByRole('dialog', { name: 'Find' })
  await find.getByRole('combobox').fill(code.toLowerCase())
  await find.getByRole('option').filter({ hasText: 'its code is' }).first().waitFor()
  await page.keyboard.press('Enter')
  await page.waitForURL(/\/bench\/tests\//)
  await page.getByRole('main').getByText(code).first().waitFor()
  expect(journey.faults).toEqual([])
})

test('a design beside itself differs in nothing, and says so', async () => {
  const { page } = engineer
  await openScreen(page, 'Designs')
  await page.getByRole('link', { name }).click()
  await page.getByRole('link', { name: 'Compare', exact: true }).click()
  await page.getByLabel('Second design').selectOption({ label: `${name}, Pellworth taxiway` })
  await page.getByRole('heading', { name: 'Nothing differs' }).waitFor()
  expect(await page.getByRole('table', { name: 'Panel' }).innerText()).toContain('The same')
  expect(journey.faults).toEqual([])
})
