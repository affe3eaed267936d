import { expect } from 'vitest'
import type { Page } from 'playwright-core'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import { choose, openScreen } from './journey-desk.ts'

// What is done at machines, ovens and baths on the days of the design, through their screens.

/**
 * The night to Monday as the logger saw it every ten minutes: over 26 °C from 22:10 on Sunday to 07:40, 27.4 °C at its
 * worst, at three.
 */
export const warmBath = Array.from({ length: 66 }, (_, index) => {
  const moment = new Date(Date.parse('2026-03-08T21:00:00Z') + index * 600_000)
  const inNight = index - 7
  const warm = inNight >= 0 && inNight <= 57
  const degrees = warm ? 26.1 + 1.3 * (1 - Math.abs(inNight - 29) / 29) : 25.4
  return [moment.toISOString(), degrees.toFixed(1)] as const
})
export const warmWeighings = [
  ['07:00', '735.0', '768.8'],
  ['08:00', '734.4', '768.3'],
  ['09:00', '734.3', '768.2'],
] as const

export async function openCode(page: Page, code: string) {
  await page.getByLabel('Code of a specimen or batch').fill(code)
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { level: 1 }).filter({ hasText: code }).waitFor()
}

/** On the page of a machine. */
export async function fitHose(page: Page, lot: string) {
  await page.getByRole('button', { name: 'Enter a hose lot' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel('Lot', { exact: true }).fill(lot)
  await dialog.getByRole('button', { name: 'Enter a hose lot' }).click()
  await dialog.waitFor({ state: 'detached' })
  await page.getByText(`Hose lot ${lot}`).first().waitFor()
}

export async function changeHose(page: Page, lot: string) {
  await openScreen(page, 'Instruments')
  await page.getByRole('link', { name: 'WTA-1' }).first().click()
  await page.getByRole('heading', { level: 1, name: 'WTA-1' }).waitFor()
  await fitHose(page, lot)
}

/** On Ovens and baths: a key for the logger of one of them, as it is shown once. */
export async function makeLoggerKey(page: Page, code: string): Promise<string> {
  await page.getByRole('button', { name: `Key of the logger on ${code}` }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByRole('button', { name: 'Make a key' }).click()
  const key = await dialog.getByLabel('Key', { exact: true }).inputValue()
  await dialog.getByRole('button', { name: 'The logger has the key' }).click()
  await dialog.waitFor({ state: 'detached' })
  return key
}

export async function postLog(page: Page, key: string, log: readonly (readonly [at: string, value: string])[]) {
  const values = log.map(([moment, value]) => ({ id: newId(), at: moment, value }))
  const answer = await page.request.post('/api/conditions', { headers: { 'x-instrument-key': key }, data: { values } })
  expect(answer.status()).toBe(200)
}

export async function putIntoOven(page: Page, code: string, specimens: readonly string[], temperature: string) {
  await page.getByRole('button', { name: `Put into ${code}` }).click()
  const dialog = page.getByRole('dialog')
  for (const specimen of specimens) await dialog.getByRole('checkbox', { name: new RegExp(specimen) }).check()
  await dialog.getByLabel('Temperature read, in °C').fill(temperature)
  await dialog.getByRole('button', { name: 'Confirm: they are in' }).click()
  await dialog.waitFor({ state: 'detached' })
}

export async function weighWarm(page: Page, specimen: string, typed: string) {
  await page.getByRole('button', { name: /^Weigh a check specimen of / }).click()
  const dialog = page.getByRole('dialog')
  await choose(dialog.getByLabel('Check specimen'), specimen)
  await dialog.getByLabel('Mass, warm, in g').fill(typed)
  await dialog.getByRole('button', { name: 'Keep the reading' }).click()
  await dialog.waitFor({ state: 'detached' })
}

export async function letOut(page: Page, count: number) {
  await page.getByRole('button', { name: /^Take out of / }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByRole('button', { name: `Confirm: ${count} are out` }).click()
  await dialog.waitFor({ state: 'detached' })
}

export async function noteTacky(page: Page, code: string, cycle: string) {
  await openCode(page, code)
  // Whichever tab of the device sends it.
  const stored = page
    .context()
    .waitForEvent('response', (answer) => answer.url().endsWith('/readings') && answer.status() === 201)
  const field = page.getByLabel(/^Tacky from cycle/)
  await field.fill(cycle)
  await field.press('Enter')
  await stored
}
