import type { InstrumentImport } from '@curebook/contract/instrument-imports'
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { connect } from '../../../../../tests/support/as-login.ts'
import { aReading, confirm, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { insertWithdrawals, lockImport } from './instrument-imports.repository.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
let lab: TestLaboratory
let testId: string
let brought: InstrumentImport
const idOf = (code: string) => brought.instruments.find((one) => one.code === code)!.id

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  await makeInstrument(testApp, lab)
  testId = (await makePlannedDesign(testApp, lab)).specimens[0]!.testId
  await confirm(testApp, lab, [testId], 'cast', 'start')
  const content = 'code;kind;name\nBAL-9;balance;Balance\nOV-9;oven;Oven, 60 °C\n'
  const sent = lab.as('manager').post(lab.path('/instrument-imports'))
  brought = (await sent.send({ id: newId(), fileName: 'instruments.csv', content }).expect(201)).body
})
afterAll(() => testApp.close())

const weigh = (url?: string) =>
  lab
    .as('technician', url)
    .post(lab.path(`/tests/${testId}/readings`))
    .send(aReading(testApp, 'weigh-before', 'mass', '759.5', { instrumentId: idOf('BAL-9') }))
const putIn = () =>
  lab
    .as('technician')
    .post(lab.path('/step-events'))
    .send({
      ...{ stepKey: 'cure', kind: 'start', rows: [{ id: newId(), testId }] },
      ...{ instrumentId: idOf('OV-9'), time: timeNow(testApp) },
    })
const openLoad = () =>
  lab
    .as('technician')
    .post(lab.path('/loads'))
    .send({ id: newId(), instrumentId: idOf('OV-9'), time: timeNow(testApp) })
const calibrate = () =>
  lab
    .as('manager')
    .post(lab.path(`/instruments/${idOf('BAL-9')}/calibrations`))
    .send({ id: newId(), doneOn: '2026-02-01', validUntil: '2027-02-01', certificate: 'C-881', passed: true })
const logTemperature = () =>
  lab
    .as('technician')
    .post(lab.path(`/instruments/${idOf('OV-9')}/conditions`))
    .send({ values: [{ id: newId(), at: testApp.clock.now().toISOString(), value: '60.0' }] })
const makeKey = () =>
  lab
    .as('manager')
    .post(lab.path(`/instruments/${idOf('OV-9')}/keys`))
    .send({ id: newId() })
const takeBack = (url?: string) =>
  lab
    .as('manager', url)
    .post(lab.path(`/instrument-imports/${brought.id}/withdrawal`))
    .send({ id: newId(), reason: 'Wrong file' })
const stored = () =>
  testApp.services.laboratory.inLaboratory(lab.people.manager.actor, async ({ prisma }) => ({
    readings: await prisma.reading.count({ where: { instrumentId: { not: null } } }),
    uses: await prisma.equipmentUse.count(),
    loads: await prisma.load.count(),
    upkeep:
      (await prisma.calibration.count()) + (await prisma.conditionValue.count()) + (await prisma.instrumentKey.count()),
  }))

/** Takes the import back on a connection of its own, and commits once what was sent meanwhile waits for it. */
async function takenBackMeanwhile<T>(send: () => Promise<T>): Promise<T> {
  const owner = await connect(testApp.ownerUrl)
  try {
    let answer: Promise<T>
    await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, async (tx) => {
      await lockImport(tx, brought.id)
      const ids = brought.instruments.map(({ id }) => id)
      await insertWithdrawals(tx, ids, { actId: newId(), reason: 'Wrong file' })
      answer = send()
      await vi.waitFor(
        async () => {
          const { rows } = await owner.query('select from pg_locks where not granted')
          expect(rows.length).toBeGreaterThan(0)
        },
        { timeout: 20_000 },
      )
    })
    return await answer!
  } finally {
    await owner.end()
  }
}

test.each([
  ['a reading', () => weigh().then()],
  ['a step', () => putIn().then()],
  ['a load', () => openLoad().then()],
  ['a calibration', () => calibrate().then()],
  ['a temperature', () => logTemperature().then()],
  ['a logger’s key', () => makeKey().then()],
] as const)('%s that found the instrument in service waits for who takes it back, and is refused', async (_, send) => {
  const answer = await takenBackMeanwhile(send)
  expect(answer.status).toBe(409)
  expect(answer.body).toMatchObject({
    code: 'wrong-state',
    detail: expect.stringMatching(/^This instrument was taken back .* Choose another one\.$/),
  })
  expect(await stored()).toEqual({ readings: 0, uses: 0, loads: 0, upkeep: 0 })
})

test('what was taken back is used no more; another instrument is', async () => {
  await takeBack().expect(201)
  await weigh().expect(409)
  await putIn().expect(409)
  await openLoad().expect(409)
  expect(await stored()).toEqual({ readings: 0, uses: 0, loads: 0, upkeep: 0 })
  const other = await makeInstrument(testApp, lab, { code: 'BAL-1', kind: 'balance', name: 'Balance' })
  await lab
    .as('technician')
    .post(lab.path(`/tests/${testId}/readings`))
    .send(aReading(testApp, 'weigh-before', 'mass', '759.5', { instrumentId: other.id }))
    .expect(201)
})

test('a weighing and a taking back at once through two servers: one of the two stands', async () => {
  const second = await testApp.startAnother()
  try {
    const answers = await Promise.all([weigh(), takeBack(second.url)])
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409])
    expect((await stored()).readings).toBe(answers[0].status === 201 ? 1 : 0)
  } finally {
    await second.close()
  }
})
