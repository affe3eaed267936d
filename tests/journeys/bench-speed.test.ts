import type { SpecimenRow } from '@curebook/contract/designs'
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { createMailService } from '../../apps/api/src/features/mail/mail.service.ts'
import { createMailTransport } from '../../apps/api/src/features/mail/mail-transport.ts'
import { signIn, startJourney, type Journey, type Person } from '../support/journey.ts'
import { openTask } from '../support/journey-bench.ts'
import {
  camerasOn,
  giveCamera,
  holdUp,
  largePicture,
  lineOpened,
  plugBalanceIn,
  plugKeysIn,
  pullPlug,
  refuseCamera,
  sendLine,
  typeAsDevice,
} from '../support/journey-devices.ts'
import { makeJourneyLaboratory, withServices, type JourneyLaboratory } from '../support/journey-laboratory.ts'
import { isWhollySeen } from '../support/journey-looks.ts'
import { rowsOf } from '../support/journey-rows.ts'
import { makeShiftMorning, type ShiftMorning } from '../support/journey-shift-start.ts'

/** What saves steps at the bench: work handed over by one scan, weights from the balance itself, labels read by the camera. */

const bench = '/l/tern-hollow/bench'
let journey: Journey
let lab: JourneyLaboratory & { readonly prepared: ShiftMorning }
let folder: string
let address: string
let ada: Person
let bram: Person

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'curebook-devices-'))
  const port = await freePort()
  address = `http://127.0.0.1:${port}`
  journey = await startJourney({
    at: '2026-03-05T07:05:00Z',
    settings: { PORT: String(port), PUBLIC_URL: address, CUREBOOK_DATA: folder },
  })
  lab = await makeJourneyLaboratory(journey.product, { at: '2026-02-27T07:00:00Z', prepare: makeShiftMorning })
  ada = await journey.arrive(tablet)
  bram = await journey.arrive(tablet)
  await plugBalanceIn(bram.context)
  for (const { context } of [ada, bram]) await Promise.all([giveCamera(context), plugKeysIn(context)])
  await signIn(ada, lab.emails.technician, lab.password)
  await signIn(bram, lab.emails.technician2, lab.password)
})
afterAll(async () => {
  await journey?.close()
  rmSync(folder, { recursive: true, force: true })
})

const tablet = { viewport: { width: 1280, height: 800 }, hasTouch: true }
const disc = (label: string): SpecimenRow => lab.prepared.morning.find((row) => row.label === label)!
const running = (page: Page) => page.getByRole('list', { name: 'Running windows' })
const scan = (page: Page) => page.getByRole('button', { name: 'Scan with the camera' })
const scanField = (page: Page) => page.getByLabel('Code of a specimen or batch').and(page.locator(':focus'))

/** What the server holds of a step, specimen by specimen, and how it was told. */
const readingsOf = (testIds: readonly string[], stepKey: string) =>
  rowsOf<{ typed: string; how: string }>(
    journey.product,
    'select typed, event_from as how from reading where test_id = any($1) and step_key = $2 order by array_position($1, test_id)',
    [testIds, stepKey],
  )
/** After a while of quiet, which the moved clock stands for. */
async function pressPrint(page: Page, at: string, line: string) {
  await journey.clockTo(`2026-03-05T${at}Z`)
  await sendLine(page, line)
}

/** A browser on the wall, whose clock this test moves on: it looks each half minute. */
async function hangWall(): Promise<Page> {
  const context = await journey.browser.newContext({
    baseURL: address,
    locale: 'en-GB',
    serviceWorkers: 'block',
    ...tablet,
  })
  await context.clock.install({ time: '2026-03-05T07:30:00Z' })
  return context.newPage()
}
/** What one round writes, of another process beside the server as mail is sent by whichever gets to it. */
async function mailed(): Promise<string[]> {
  const place = path.join(folder, 'mail')
  await withServices(journey.product, '2026-03-05T07:30:00Z', ({ database, services }) =>
    createMailService({
      ...{ database, laboratory: services.laboratory, methods: services.methods, publicUrl: address },
      transport: createMailTransport({
        smtpUrl: undefined,
        from: 'Curebook <curebook@ternhollow.example>',
        folder: place,
      }),
    }).round(),
  )
  return readdirSync(place).map((name) => readFileSync(path.join(place, name), 'utf8').replaceAll('=\r\n', ''))
}
async function saveWishes(page: Page) {
  await page.getByRole('button', { name: 'Save what is mailed' }).tap()
  await page
    .getByText(/^Saved/)
    .first()
    .waitFor()
}
function freePort(): Promise<number> {
  const server = createServer()
  return new Promise((resolve) => {
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number }
      server.close(() => resolve(port))
    })
  })
}

test('one scan at shift change hands all running work over, and each is told on their own bench', async () => {
  const { page } = ada
  await running(page).getByText('13-3').first().waitFor()
  await page.getByRole('link', { name: 'Hand over my running work' }).tap()
  await page.getByRole('button', { name: 'Show the code' }).tap()
  await page.getByRole('img', { name: /^Square for a scanner/ }).waitFor()
  const code = await page.getByText(/^[A-HJKMNP-Z2-9]{4}-[A-HJKMNP-Z2-9]{4}$/).innerText()
  const offered = page.getByRole('table', { name: /^What goes over/ }).getByRole('row')
  const count = (await offered.count()) - 1
  expect(count).toBeGreaterThan(5)

  const other = bram.page
  await scanField(other).waitFor()
  await typeAsDevice(other, code.replace('-', ''))
  await other.getByText('Ada Lindqvist hands this over.').waitFor()
  expect(
    await other
      .getByRole('table', { name: /^Yours after/ })
      .getByRole('row')
      .count(),
  ).toBe(count + 1)
  await other.getByRole('button', { name: `Take over ${count} tests` }).tap()
  await other.getByText(`${count} tests of Ada Lindqvist are yours now.`).waitFor()
  await running(other).getByText('13-3').first().waitFor()

  await page.goto(bench)
  const notice = page.getByRole('article').filter({ hasText: 'Handed over at shift change' })
  await notice.getByText(`Bram Osei took over ${count} tests of yours`).waitFor()
  await notice.getByRole('button', { name: 'Seen' }).tap()
  await notice.waitFor({ state: 'detached' })
  expect(await running(page).count()).toBe(0)

  // A code serves once.
  await scanField(other).waitFor()
  await typeAsDevice(other, code.replace('-', ''))
  await other.getByText(/Bram Osei took this work on already/).waitFor()
})

test('a rack of twenty is weighed by the print key of a balance that types, without touching the screen', async () => {
  const { page } = bram
  await page.goto(bench)
  await openTask(page, 'Weigh after cure (W1)', 'A rack of twenty')
  const display = page.locator('[data-rack-display]')
  await page.getByRole('checkbox', { name: 'In the order of the list, without codes' }).check()
  await display.getByText('On the balance').waitFor()
  // Whatever had the focus last; nothing is touched from here on.
  await page.locator('body').evaluate('document.activeElement.blur()')
  const rack = lab.prepared.rack.toSorted((one, other) => one.label.localeCompare(other.label, 'en', { numeric: true }))
  const typed = rack.map((_, index) => `${750 + index}.${index % 10}`)
  for (const [index, weight] of typed.entries()) {
    await typeAsDevice(page, ` ${weight} g`)
    await page.getByText(`${index + 1} of 20 done.`).waitFor()
    await display.getByText(`${weight} g`).waitFor()
    expect(await isWhollySeen(page, display.getByText(`${weight} g`))).toBe(true)
  }
  const ids = rack.map(({ testId }) => testId)
  await expect
    .poll(() => readingsOf(ids, 'weigh-before'))
    .toEqual(typed.map((weight) => ({ typed: `${weight} g`, how: 'instrument' })))
})

test('how a balance sends is learnt from one of its lines, and the bench takes what it sends from then on', async () => {
  const { page } = bram
  await page.goto(`/l/tern-hollow/instruments/${lab.prepared.balance}`)
  await page.getByRole('button', { name: 'Enter how it sends' }).tap()
  const dialog = page.getByRole('dialog', { name: 'BAL-1: how it sends' })
  await dialog.getByLabel('Speed, in bits a second').selectOption('4800')
  await dialog.getByRole('button', { name: 'Take a line from the balance' }).tap()
  await dialog.getByText('Listening: weigh something steady and press the print key.').waitFor()
  expect(await lineOpened(page)).toEqual({ baudRate: 4800, dataBits: 8, parity: 'none', stopBits: 1 })
  await sendLine(page, 'ST,GS,+  0812.4 g')
  await expect.poll(() => dialog.getByLabel('One line as it came').inputValue()).toBe('ST,GS,+  0812.4 g')
  await dialog.getByLabel('The number shown then').fill('812.4')
  await dialog.getByText(/^Understood: this line gives 812.4 g/).waitFor()
  await dialog.getByRole('button', { name: 'Store how it sends' }).tap()
  await dialog.waitFor({ state: 'detached' })
  await page.getByRole('table', { name: 'How it sends' }).getByText('ST,GS,+ 0812.4 g').waitFor()

  await page.goto(bench)
  await openTask(page, 'Weigh after dry back (W2)')
  await page.getByRole('button', { name: 'Connect the balance BAL-1' }).tap()
  await page.getByText('BAL-1 is connected: what it sends stands in the field.').waitFor()
  const field = page.getByLabel(/^Mass of 12-1 /)
  await pressPrint(page, '07:05:10', 'US,GS,+  0766.0 g')
  await page.getByText(/lacks “ST”: the balance was not steady/).waitFor()
  expect(await field.inputValue()).toBe('')
  await pressPrint(page, '07:05:20', 'ST,GS,+  0758.0 g')
  await expect.poll(() => field.inputValue()).toBe('758.0 g')
  await page.keyboard.press('Enter')
  await page.getByText('1 of 5 done.').waitFor()

  // Set so on this tablet, a press of the print key is all that it takes; the line stays from screen to screen.
  await page.getByRole('link', { name: 'Back to my work' }).tap()
  await page.getByText('This tablet', { exact: true }).tap()
  await page.getByRole('checkbox', { name: 'A weight sent by the balance is stored at once' }).check()
  await openTask(page, 'Weigh after dry back (W2)')
  await page.getByLabel(/^Mass of 12-2 /).waitFor()
  await pressPrint(page, '07:05:30', 'ST,GS,+  0764.1 g')
  await page.getByText('2 of 5 done.').waitFor()
  await pullPlug(page)
  await page.getByText('The connection to BAL-1 is lost. Connect it again, or type the weight.').waitFor()
  const ids = ['12-1', '12-2'].map((label) => disc(label).testId)
  await expect
    .poll(() => readingsOf(ids, 'weigh-after'))
    .toEqual([
      { typed: '758.0 g', how: 'instrument' },
      { typed: '764.1 g', how: 'instrument' },
    ])
})

test('a label before the camera opens the step that is due for it, and one not known here is said', async () => {
  const { page } = bram
  const dialog = page.getByRole('dialog', { name: 'Scan a code' })
  await page.goto(bench)
  await scan(page).tap()
  await dialog.getByLabel('Picture of the camera').waitFor()
  await holdUp(page, 'ZZZZ')
  await dialog.getByText(/No specimen “ZZZZ” here/).waitFor()
  await holdUp(page, disc('13-3').code)
  await page.getByRole('heading', { level: 1, name: /^13-3 / }).waitFor()
  await dialog.waitFor({ state: 'detached' })
  expect(await camerasOn(page)).toBe(0)
})

test('without a camera, without leave, or without what reads codes, this is said, and the code can be typed', async () => {
  const { page, context } = ada
  const dialog = page.getByRole('dialog', { name: 'Scan a code' })
  await page.goto(bench)
  await scan(page).waitFor()
  await page.getByText('Nothing waits for you.').waitFor()
  await context.setOffline(true)
  await scan(page).tap()
  await page.getByText(/^Scanning by the camera is not on this device yet/).waitFor()
  await context.setOffline(false)
  for (const [name, words] of [
    ['NotAllowedError', /^The camera is not allowed for this address/],
    ['NotFoundError', /^No camera could be used/],
  ] as const) {
    await refuseCamera(page, name)
    await scan(page).tap()
    await dialog.getByText(words).waitFor()
    await page.keyboard.press('Escape')
    await dialog.waitFor({ state: 'detached' })
  }
  await page.getByLabel('Code of a specimen or batch').fill(disc('13-3').code)
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { level: 1, name: /^13-3 / }).waitFor()
})

test('a wall screen is paired by a code, shows what closes and what stands in the bath, and says when it was ended', async () => {
  const { page } = await journey.arrive()
  await signIn({ page, context: page.context() }, lab.emails.manager, lab.password, '/sign-in')
  await page.goto('/l/tern-hollow/settings')
  await page.getByRole('button', { name: 'Make a wall screen' }).click()
  const dialog = page.getByRole('dialog', { name: 'A new wall screen' })
  await dialog.getByLabel('Name').fill('Bench room')
  await dialog.getByRole('button', { name: 'Make it and show the code' }).click()
  const code = await dialog.getByText(/^[A-HJKMNP-Z2-9]{4}-[A-HJKMNP-Z2-9]{4}$/).innerText()

  const wall = await hangWall()
  await wall.goto('/wall')
  await wall.getByLabel('Pairing code').fill('AAAA-AAAA')
  await wall.keyboard.press('Enter')
  await wall.getByText('No wall screen waits for this code. Compare it sign by sign.').first().waitFor()
  await wall.getByLabel('Pairing code').fill(code.toLowerCase())
  await wall.keyboard.press('Enter')
  await wall.getByRole('heading', { name: 'Tern Hollow Surfacing Laboratory · Bench room' }).waitFor()
  const part = (name: string) => wall.getByRole('region', { name })
  await part('Closes soon').getByText(disc('13-1').code).waitFor()
  await part('Opens next').getByText(disc('13-3').code).waitFor()
  await part('Ovens and baths').getByText('BATH-1').waitFor()
  await part('Ovens and baths').getByText('2 inside').waitFor()
  const text = await wall.locator('body').innerText()
  for (const hidden of ['Marrowdale County Roads', 'Overlay 2026']) expect(text).not.toContain(hidden)

  await dialog.getByRole('button', { name: 'It is typed' }).click()
  const row = page.getByRole('row').filter({ hasText: 'Bench room' })
  await row.getByText('Paired').waitFor()
  await row.getByRole('button', { name: 'End Bench room' }).click()
  await row.getByText('Ended').waitFor()
  // The next look, half a minute later by the wall's own clock.
  await wall.clock.fastForward(31_000)
  await wall.getByRole('heading', { name: 'Bench room is no wall screen any more' }).waitFor()
  await wall.reload()
  await wall.getByLabel('Pairing code').waitFor()
})

test('a window that closes and what was handed over come by mail, and the link leads to the Bench', async () => {
  const { page } = ada
  const other = bram.page
  await page.goto('/l/tern-hollow/account')
  await page.getByLabel('A window of mine closes').selectOption({ label: '60 minutes before' })
  await saveWishes(page)
  await other.goto('/l/tern-hollow/account')
  await other.getByRole('checkbox', { name: /^Somebody gives me tests/ }).check()
  await saveWishes(other)

  await other.goto(`${bench}/hand-over`)
  await other.getByRole('button', { name: 'Show the code' }).tap()
  const code = await other.getByText(/^[A-HJKMNP-Z2-9]{4}-[A-HJKMNP-Z2-9]{4}$/).innerText()
  await page.goto(`${bench}/take-over#${code.replace('-', '')}`)
  await page.getByRole('button', { name: /^Take over \d+ tests?/ }).tap()
  await page.getByText(/of Bram Osei are yours now/).waitFor()

  const mails = await mailed()
  const about = (words: RegExp) => mails.find((mail) => words.test(mail))
  expect(mails).toHaveLength(2)
  expect(about(/^Subject: \d+ windows close at 08:00/m)).toContain(`To: ${lab.emails.technician}`)
  expect(about(/^Subject: Ada Lindqvist took over \d+ tests of yours/m)).toContain(`To: ${lab.emails.technician2}`)
  const [link, ...others] = new Set(mails.map((mail) => /http:\S+/.exec(mail)![0]))
  expect(others).toEqual([])
  await page.goto(link!)
  await page.getByRole('heading', { level: 1, name: 'Bench' }).waitFor()
  await running(page).getByText('13-3').first().waitFor()
})

test('a large photograph is made smaller on the device before it is sent', async () => {
  const { page } = ada
  await page.goto(`${bench}/tests/${disc('13-3').testId}`)
  await page.getByRole('button', { name: 'Note or photograph what is seen' }).tap()
  await page.getByRole('radio', { name: 'Edge lifted' }).check()
  const taken = largePicture(1800, 1200)
  expect(taken.length).toBeGreaterThan(6_000_000)
  await page
    .getByLabel('Photograph (optional)')
    .setInputFiles({ name: 'felt.png', mimeType: 'image/png', buffer: taken })
  await page.getByRole('button', { name: 'Store what is seen' }).tap()
  await page.getByText('Edge lifted').first().waitFor()
  const stored = () =>
    rowsOf<{ type: string; bytes: number }>(
      journey.product,
      'select media_type as type, length(body) as bytes from attachment a join attachment_body b on b.attachment_id = a.id',
    )
  await expect.poll(async () => (await stored()).length, { timeout: 20_000 }).toBe(1)
  const [picture] = await stored()
  expect(picture!.type).toBe('image/jpeg')
  expect(picture!.bytes).toBeLessThan(1_000_000)
  await page.getByRole('main').locator('img').first().waitFor()
})

test('no page had a fault', () => {
  expect(journey.faults.filter((fault) => !/ERR_INTERNET_DISCONNECTED/.test(fault))).toEqual([])
})
