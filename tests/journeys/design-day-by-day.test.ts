import type { RangeView } from '@curebook/contract/range'
import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { accidents, recommendation, rowsAsHappened } from '../support/journey-accidents.ts'
import {
  warmBath,
  warmWeighings,
  openCode,
  fitHose,
  changeHose,
  makeLoggerKey,
  postLog,
  putIntoOven,
  weighWarm,
  letOut,
  noteTacky,
} from '../support/journey-day-acts.ts'
import { issueReport, openReport, recommend, settlePoints, sign } from '../support/journey-approval.ts'
import {
  adhesion,
  at,
  design,
  instruments,
  labels,
  machines,
  oneHour,
  readingsAskedFor,
  samples,
  sixDay,
  soakOrder,
} from '../support/journey-design.ts'
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
  type PlannedSpecimen,
} from '../support/journey-desk.ts'
import { makeJourneyLaboratory, type JourneyLaboratory } from '../support/journey-laboratory.ts'
import { accept, invite } from '../support/journey-people.ts'
import { createBenchStory, type BenchStory } from '../support/journey-story.ts'
import { readPdf } from '../support/pdf-text.ts'

/** A design day by day with its accidents, done by four people through the screens, on its days and at its times. */

let journey: Journey
let lab: JourneyLaboratory
let manager: Person, engineer: Person, technician: Person, client: Person
let specimens: PlannedSpecimen[]
let bench: BenchStory

beforeAll(async () => {
  journey = await startJourney({ at: at(1, '08:30') })
  lab = await makeJourneyLaboratory(journey.product, { at: at(1, '08:00') })
  manager = await journey.arrive()
  await signIn(manager, lab.emails.manager, lab.password)
})
afterAll(() => journey?.close())

test('the manager enters project, specification, samples and instruments, and lets the client in', async () => {
  const { page } = manager
  await enterProject(page, { client: design.clientName, name: 'Marrowdale overlay', kind: 'Full design' })
  await adoptSpecification(page, {
    builtIn: design.specification.builtIn,
    type: design.specification.aggregateType,
    traffic: design.specification.traffic,
    name: 'Guideline values as adopted',
  })
  for (const sample of samples) await receiveSample(page, '2026-03-02', sample)
  for (const instrument of instruments) await enterInstrument(page, instrument)
  for (const { factors, ...machine } of machines) {
    await enterInstrument(page, machine)
    for (const factor of factors) await enterFactor(page, { ...machine, ...factor })
    if (machine.code === 'WTA-1') await fitHose(page, 'H-07')
  }
  const link = await invite(page, {
    name: 'Ines Calder',
    email: 'client@ternhollow.example',
    role: 'Client',
    client: design.clientName,
  })
  client = await journey.arrive({ viewport: { width: 390, height: 844 } })
  await accept(client.page, link, lab.password)
})

test('the engineer makes the design, enters residue and moisture, and plans the series', async () => {
  await journey.clockTo(at(2, '16:30'))
  engineer = await journey.arrive()
  await signIn(engineer, lab.emails.engineer, lab.password)
  const { page } = engineer
  await makeDesign(page, {
    project: 'Marrowdale overlay',
    name: design.name,
    specification: 'Guideline values as adopted',
    samples: Object.fromEntries(samples.map(({ field, name }) => [field, name])),
    fraction: design.fractionUsed.disc,
    scalped: design.scalpedPercent,
  })
  const { residuePercent, moisturePercent } = design
  const [residueFrom, moistureFrom] = ['Own test, mean of three beakers', 'Own test: bags dried to constant mass']
  await enterValue(page, 'residue', { value: residuePercent, source: residueFrom, on: '2026-03-02' })
  await enterValue(page, 'moisture', { value: moisturePercent, source: moistureFrom, on: '2026-03-03' })
  await planSeries(page, design.contents, { [oneHour]: 3, [sixDay]: 3, [adhesion]: 3 }, { [oneHour]: ['10', '12'] })

  specimens = await readSpecimens(page, 47)
  expect(new Set(specimens.map(({ code }) => code)).size).toBe(47)
  await openScreen(page, 'Methods')
  technician = await journey.arrive({ viewport: { width: 1024, height: 768 }, hasTouch: true })
  await signIn(technician, lab.emails.technician, lab.password)
  bench = createBenchStory({ journey, technician, shortName: lab.shortName, specimens, rows: rowsAsHappened })
})

test('1-hour discs: assigned in bulk, weighed in batch by batch, cast and cured', async () => {
  await journey.clockTo(at(3, '08:30'))
  await assignAll(manager.page, { test: oneHour, to: 'Ada Lindqvist', count: 17 })
  await bench.castDiscs(oneHour, 3, { first: '09:00', every: 9 })
})

test('1-hour discs: weighed cold, soaked one by one, abraded within their windows, into the oven', async () => {
  await bench.outOfTheOven(oneHour, 'Cure in the oven', 4, { out: '08:35', cooled: '09:36' })
  await bench.weigh(oneHour, 'Weigh after cure (W1)', { key: 'w1', day: 4, time: '09:40' })
  const late = { '11-3': '15:09' }
  await bench.inTurn(
    oneHour,
    4,
    { step: 'Soak in the bath', act: 'In the bath', first: '10:20', times: { '10-4': '14:20' } },
    { step: 'Abrade', act: 'Run started', first: '11:22', times: { ...late, '10-4': '15:24' } },
    {
      every: 15,
      order: [...soakOrder, '10-4'],
      between: {
        '13:38': () => bench.aside((page) => bench.voidSpecimen(bench.codeOf(oneHour, '10-2'), tornFelt, page)),
        '14:15': () => bench.aside((page) => replaceBySpare(page, '10-2', '10-4')),
        '15:06': () => bench.aside((page) => changeHose(page, 'H-08')),
      },
    },
  )
  await bench.intoTheOven(oneHour, 'Dry back', 4, '15:40', abraded)
})

test('the run that began four minutes late waits for the manager, who accepts it with a reason', async () => {
  await journey.clockTo(at(4, '15:45'))
  const { page } = manager
  await openScreen(page, 'Quality')
  await page.getByRole('button', { name: /^Decide: .*11-3/ }).click()
  const dialog = page.getByRole('dialog', { name: 'Decide a deviation' })
  await dialog.getByRole('radio', { name: /^Accept/ }).check()
  await dialog.getByRole('textbox', { name: 'Reason' }).fill('A longer soak can only raise the loss.')
  await dialog.getByRole('button', { name: 'Accept with this reason' }).click()
  await dialog.waitFor({ state: 'detached' })
  await page.getByText('Nothing waits for a decision.').waitFor()
})

test('6-day discs: cast and cured the same way', async () => {
  await journey.clockTo(at(4, '15:50'))
  await assignAll(manager.page, { test: sixDay, to: 'Ada Lindqvist', count: 15 })
  await bench.castDiscs(sixDay, 4, { first: '15:52', every: 6 })
})

test('1-hour discs: weighed after dry back; transposed digits and two discs exchanged are asked about and put right', async () => {
  await bench.outOfTheOven(oneHour, 'Dry back', 5, { out: '08:00', cooled: '08:58', labels: abraded })
  const { page } = technician
  await bench.weigh(oneHour, 'Weigh after dry back (W2)', {
    key: 'w2',
    day: 5,
    time: '09:00',
    order: abraded,
    slips: { '13-1': '737.7', '12-2': '795.7', '12-3': '764.0' },
  })
  const asked = page.getByRole('alert').filter({ hasText: 'exchanged' })
  for (const label of ['12-2', '12-3']) expect(await asked.first().innerText()).toContain(bench.codeOf(oneHour, label))
  await correct(page, '13-1', '773.7', 'Mistyped')
  await correct(page, '12-2', '764.0', 'Was another specimen')
  await correct(page, '12-3', '795.7', 'Was another specimen')
  await expect.poll(() => asked.count()).toBe(0)
  await bench.voidSpecimen(bench.codeOf(oneHour, '12-4'), 'Spare, not needed: no other disc was lost.')
})

test('6-day discs: weighed cold and put into the bath one by one', async () => {
  await bench.outOfTheOven(sixDay, 'Cure in the oven', 5, { out: '09:20', cooled: '10:02' })
  await bench.weigh(sixDay, 'Weigh after cure (W1)', { key: 'w1', day: 5, time: '10:05' })
  const soak = { step: 'Soak in the bath', day: 5, first: '10:30', every: 15, order: labels } as const
  await bench.oneByOne(sixDay, 'In the bath', soak)
})

test('the bath was too warm over the weekend: its logger opens one deviation of all that stood inside, and the engineer decides', async () => {
  await journey.clockTo(at(8, '08:00'))
  await openScreen(manager.page, 'Ovens and baths')
  const key = await makeLoggerKey(manager.page, 'BATH-1')
  await postLog(manager.page, key, warmBath)
  const { page } = engineer
  await openScreen(page, 'Quality')
  const decide = page.getByRole('button', { name: /^Decide: .*BATH-1/ })
  await decide.first().waitFor()
  expect(await decide.count()).toBe(1)
  expect(await page.getByRole('main').innerText()).toContain('27.4')
  await decide.click()
  const dialog = page.getByRole('dialog', { name: 'Decide a deviation' })
  await dialog.getByRole('radio', { name: /^Accept/ }).check()
  await dialog.getByRole('textbox', { name: 'Reason' }).fill('Two degrees for a night: the loss can only be raised.')
  await dialog.getByRole('button', { name: 'Accept with this reason' }).click()
  await dialog.waitFor({ state: 'detached' })
})

test('strips: cast and cured', async () => {
  await journey.clockTo(at(8, '13:00'))
  await assignAll(manager.page, { test: adhesion, to: 'Ada Lindqvist', count: 15 })
  await bench.castStrips(adhesion, 8, { first: '13:20', every: 8 })
  await bench.intoTheOven(adhesion, 'Cure in the oven', 8, '15:45')
})

test('strips: conditioned one after another; one cracks, one turns tacky; the others washed and dried', async () => {
  await bench.outOfTheOven(adhesion, 'Cure in the oven', 9, { out: '07:30', cooled: '08:30' })
  const order = rowsAsHappened(adhesion).map(({ label }) => label)
  const cracked = 'Plate bent, strip cracked; stopped at 310 cycles.'
  await bench.inTurn(
    adhesion,
    9,
    { step: 'Run the conditioning cycles', act: 'Wheel started', first: '08:35' },
    { step: 'Run the conditioning cycles', act: 'Wheel stopped', first: '08:58', times: { '12-1': null } },
    {
      every: 29,
      order,
      between: {
        '11:36': () => bench.aside((page) => bench.voidSpecimen(bench.codeOf(adhesion, '12-1'), cracked, page)),
        '15:06': () => bench.aside((page) => noteTacky(page, bench.codeOf(adhesion, '14-2'), '640')),
      },
    },
  )
  await bench.intoTheOven(adhesion, 'Wash and dry', 9, '16:05', sanded)
})

test('strips: weighed before sanding, sanded one by one and weighed at once', async () => {
  await bench.outOfTheOven(adhesion, 'Wash and dry', 10, { out: '08:00', cooled: '08:56', labels: sanded })
  await bench.weigh(adhesion, 'Weigh before sanding (W1)', {
    key: 'w1',
    day: 10,
    time: '09:00',
    order: sanded.toReversed(),
  })
  await bench.sandAndWeigh(adhesion, 10, { first: '09:40', every: 11 })
})

test('6-day discs: abraded within two hours of their 144th, dried back and weighed', async () => {
  const runs = { step: 'Abrade', day: 11, first: '10:35', every: 15, order: labels } as const
  await bench.oneByOne(sixDay, 'Run started', runs)
  const { page } = technician
  await journey.clockTo(at(11, '14:15'))
  await openScreen(page, 'Ovens and baths')
  await putIntoOven(page, 'OV-1', bench.codesOf(sixDay), '60.2')
  // Two check specimens, warm against warm: the load dries on one hour.
  for (const [time, first, second] of warmWeighings) {
    await journey.clockTo(at(12, time))
    await weighWarm(page, bench.codeOf(sixDay, '14-1'), first)
    await weighWarm(page, bench.codeOf(sixDay, '14-3'), second)
    await page.getByText(time === '09:00' ? 'Constant mass' : 'Not constant yet', { exact: true }).waitFor()
  }
  await letOut(page, bench.codesOf(sixDay).length)
  await bench.cooled(sixDay, 12, '10:02')
  await bench.weigh(sixDay, 'Weigh after dry back (W2)', { key: 'w2', day: 12, time: '10:05' })
})

test('as many readings were typed as the declarations ask for, none of them past the screens', async () => {
  const posted = () =>
    journey.asked.filter(({ method, path }) => method === 'POST' && /\/tests\/[^/]+\/readings$/.test(path))
  const asked = readingsAskedFor([oneHour, sixDay, adhesion].flatMap(rowsAsHappened))
  expect(bench.readingsTyped()).toBe(asked)
  // With the cycle at which a strip turned tacky. The last of them may still be on their way.
  await expect.poll(() => posted().length, { timeout: 30_000 }).toBe(asked + 1)
  expect(posted().every(({ status }) => status === 201)).toBe(true)
})

test('the engineer reads the range as independent arithmetic finds it', async () => {
  await journey.clockTo(at(12, '14:00'))
  const { page } = engineer
  await openDesign(page)
  const answer = page.waitForResponse((response) => new URL(response.url()).pathname.endsWith('/range'))
  await page.getByRole('link', { name: 'Results and range' }).click()
  const range = (await (await answer).json()) as RangeView
  const { minimum, maximum } = range
  expect([minimum.kind, maximum.kind]).toEqual(['crossing', 'crossing'])
  expect(Number(minimum.residualPercent).toFixed(3)).toBe('6.905')
  expect(Number(maximum.residualPercent).toFixed(3)).toBe('8.280')
  expect(await page.getByRole('region', { name: 'Minimum' }).innerText()).toContain('6.905')
  expect(await page.getByRole('region', { name: 'Maximum' }).innerText()).toContain('8.280')
  const strips = range.curves.find(({ property }) => property === 'sand-adhesion')!
  expect(strips.means.map(({ n }) => n)).toEqual([3, 3, 2, 3, 3])
  expect(await page.getByRole('table', { name: 'Panel' }).innerText()).toContain('Not tested')
})

test('the engineer recommends and settles every point, the manager checks, the engineer approves', async () => {
  await recommend(engineer.page, recommendation)
  const points = engineer.page.getByRole('region', { name: 'To be seen before signing' })
  await engineer.page.getByRole('link', { name: 'Review', exact: true }).click()
  for (const [kind, said] of accidents) {
    const point = points.locator(`[data-point^="${kind}:"]`).filter({ hasText: said })
    await point.first().waitFor()
  }
  const late = points.locator('[data-point^="deviation:"]').filter({ hasText: 'A longer soak' })
  expect(await late.innerText()).toContain('Without 11-3 the range stays as it is.')
  expect(await settlePoints(engineer.page, 'Seen, in order')).toMatch(/^Nothing blocks, none waits/)

  await journey.clockTo(at(15, '09:00'))
  const { password } = lab
  await openDesign(manager.page)
  await manager.page.getByRole('link', { name: 'Review', exact: true }).click()
  await sign(manager.page, { act: 'Check revision 1', confirm: 'Sign: revision 1 is checked', password })
  await journey.clockTo(at(15, '09:30'))
  await sign(engineer.page, { act: 'Approve revision 1', confirm: 'Sign: revision 1 is approved', password })
})

test('the report is issued, and the client finds the range in it', async () => {
  await issueReport(engineer.page)
  await signIn(client, 'client@ternhollow.example', lab.password)
  await client.page.getByText('44 of 44 tests done').waitFor()
  const { text, emptyGlyphs } = readPdf(await readFile(await openReport(client.page)))
  expect(emptyGlyphs).toBe(0)
  expect(text).toContain('6.905')
  expect(text).toContain('8.280')
  expect(text).toContain(design.clientName)
  const lines = text.replaceAll(/\s+/g, ' ')
  for (const [, said] of accidents) expect(lines).toContain(said)
})

test('the API answered nothing but what pages asked for, and no page had a fault', () => {
  // The bath's logger speaks for itself.
  const served = journey.product.served.filter(({ path }) => path.startsWith('/api/') && path !== '/api/conditions')
  const asked = timesOf(journey.asked)
  expect([...timesOf(served)].filter(([line, times]) => times > (asked.get(line) ?? 0))).toEqual([])
  expect(journey.faults).toEqual([])
})

const tornFelt = 'Felt tore at the clamp; stopped at 40 s.'
/** In the order of the runs: without the torn disc and the spare not needed. */
const abraded = [...soakOrder.filter((label) => label !== '10-2'), '10-4']
const sanded = rowsAsHappened(adhesion).flatMap(({ label, w2 }) => (w2 === undefined ? [] : label))

const rackRow = (page: Page, label: string) =>
  page
    .getByRole('table', { name: 'The rack' })
    .getByRole('row')
    .filter({ hasText: bench.codeOf(oneHour, label) })

async function correct(page: Page, label: string, typed: string, why: 'Mistyped' | 'Was another specimen') {
  await rackRow(page, label)
    .getByRole('button', { name: `Correct ${label}` })
    .click()
  await page.locator('input[name=typed]').fill(typed)
  await page.getByRole('button', { name: why }).click()
  await expect.poll(() => rackRow(page, label).innerText()).toContain(typed)
}

async function replaceBySpare(page: Page, lost: string, spare: string) {
  await openCode(page, bench.codeOf(oneHour, lost))
  await page.getByRole('button', { name: /^Put a spare in the place of/ }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel('Code of the spare').fill(bench.codeOf(oneHour, spare))
  await dialog.getByLabel('Reason').fill('Spare of the same content, cast the same morning.')
  await dialog.getByRole('button', { name: /^Put it in the place of/ }).click()
  await dialog.waitFor({ state: 'detached' })
}

async function openDesign(page: Page) {
  await openScreen(page, 'Designs')
  await page.getByRole('link', { name: design.name }).click()
}

function timesOf(requests: readonly { method: string; path: string }[]): Map<string, number> {
  const times = new Map<string, number>()
  for (const { method, path } of requests) times.set(`${method} ${path}`, (times.get(`${method} ${path}`) ?? 0) + 1)
  return times
}
