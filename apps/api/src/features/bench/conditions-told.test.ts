import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import type { ConditionLog } from '@curebook/contract/conditions'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

vi.setConfig({ testTimeout: 60_000 })

/** A value of an oven's log that waited on a device: at its own time, once, and its refusal says what would be right. */

const now = Date.parse('2026-03-06T08:00:00Z')
const iso = (ms: number) => new Date(ms).toISOString()
const minute = 60_000
let testApp: TestApp
let lab: TestLaboratory
let oven: { id: string }
beforeAll(async () => {
  testApp = await startTestApp({ now: iso(now) })
  lab = await makeLaboratory(testApp)
  oven = await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven, 60 °C' })
})
afterAll(() => testApp.close())

/** Read at so many minutes before now by the device's clock, which is ahead, and sent now. */
const told = (readAgo: number, ahead: number, typed = '60.4') => ({
  values: [{ id: newId(), value: typed }],
  time: {
    eventAt: iso(now + (ahead - readAgo) * minute),
    eventFrom: 'now',
    toldAt: iso(now + (ahead - readAgo) * minute),
    sentAt: iso(now + ahead * minute),
  },
})
const add = (body: object) =>
  lab
    .as('technician')
    .post(lab.path(`/instruments/${oven.id}/conditions`))
    .send(body)
const log = async () =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/instruments/${oven.id}/conditions`))
      .expect(200)
  ).body as ConditionLog

test('it stands at the time at which it was read, by the laboratory’s clock, and once however often it comes', async () => {
  const body = told(40, 30)
  const answers = await Promise.all([add(body), add(body)])
  expect(answers.map(({ status }) => status)).toEqual([200, 200])
  expect(answers.map(({ body: { stored } }) => stored).toSorted()).toEqual([0, 1])
  // Sent again a while later: the device's clock says so, and the value is the same one.
  testApp.clock.advance({ minutes: 5 })
  const again = { ...body, time: { ...body.time, sentAt: iso(now + 35 * minute + 700) } }
  expect((await add(again).expect(200)).body).toMatchObject({ stored: 0, known: 1 })
  expect((await log()).values).toMatchObject([{ id: body.values[0]!.id, at: iso(now - 40 * minute), typed: '60.4' }])
  const other = { ...body, time: { ...body.time, eventAt: iso(now), toldAt: iso(now) } }
  expect((await add(other).expect(409)).body.code).toBe('conflict')
  expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
})

test('what is wrong with it is said by its field, and nothing of it is kept', async () => {
  const before = (await log()).values
  const refusal = async (body: object) =>
    (await add(body).expect(400)).body.errors.map(({ path }: { path: string }) => path)
  expect(await refusal(told(1, 0, 'warm'))).toEqual(['values.0.value'])
  expect(await refusal({ values: [{ id: newId(), value: '60' }] })).toEqual(['values.0.at'])
  const both = told(1, 0)
  expect(await refusal({ ...both, values: [{ ...both.values[0], at: iso(now) }] })).toEqual(['time'])
  const late = told(0, 0)
  const time = { ...late.time, eventAt: iso(now - 30 * minute), eventFrom: 'at' }
  expect(await refusal({ ...late, time })).toEqual(['time.note'])
  expect((await log()).values).toEqual(before)
  await add({ ...late, time: { ...time, note: 'Tablet was charging' } }).expect(200)
  expect((await log()).values.map(({ note }) => note)).toContain('Tablet was charging')
})

test('an oven that went out of service meanwhile takes the value that was read while it stood', async () => {
  const current = await testApp.services.instruments.read(lab.people.manager.actor, oven.id)
  await testApp.services.instruments.update(lab.people.manager.actor, oven.id, { state: 'out' }, current.version)
  const { stored } = (await add(told(3, 0, '59.8')).expect(200)).body
  expect(stored).toBe(1)
})
