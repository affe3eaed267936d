import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { createMaintenanceService } from './maintenance.service.ts'

vi.setConfig({ testTimeout: 120_000 })

// The first cone of a series is the batch of its sheet: it is weighed once, with the batch.

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

/** A series of two cones of which all was read but the batch, which is the first. */
async function readCones() {
  const lab = await makeLaboratory(testApp)
  const { id } = await makeDesign(testApp, lab)
  const { body } = await lab
    .as('engineer')
    .post(lab.path(`/designs/${id}/plan`))
    .set('idempotency-key', newId())
    .send({
      contents: [{ emulsionPercent: '12', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
      methods: [{ methodKey: 'cone-consistency', replicates: 1, spares: [] }],
    })
    .expect(200)
  const { testId, batchTestId } = body.items[0] as { testId: string; batchTestId: string }
  const post = async (test: string, step: string, key: string, typed: string, repeat = 1) =>
    (
      await testApp.services.bench.readings.post(
        lab.people.technician.actor,
        test,
        aReading(testApp, step, key, typed, { confirmedOdd: true, repeat }),
      )
    ).value.reading
  await post(testId, 'prepare', 'moisture', '0')
  await post(testId, 'prepare', 'temperature', '25.0')
  await post(testId, 'cone-2', 'aggregate', '400.0')
  await post(testId, 'cone-2', 'water', '48.0')
  for (const [step, flow] of [
    ['cone-1', '20'],
    ['cone-2', '30'],
  ] as const) {
    for (const place of [1, 2, 3, 4]) await post(testId, step, 'flow', flow, place)
    await post(testId, step, 'segregation', 'none')
  }
  const weigh = (key: string, typed: string) => post(batchTestId, 'weigh-components', key, typed)
  const resultOf = async (key: string) =>
    (await testApp.services.bench.view.one(lab.people.technician.actor, testId)).results.find((one) => one.key === key)
  return { lab, testId, post, weigh, resultOf }
}
async function expectSound({ labId, people }: TestLaboratory) {
  const maintenance = createMaintenanceService({ laboratory: testApp.services.laboratory, methods: builtInMethods })
  expect(await maintenance.checkProjections(labId)).toEqual([])
  expect(await maintenance.replayResults(labId)).toMatchObject({ differences: [], faults: [] })
  expect((await testApp.services.ledger.verify(people.manager.actor, {})).whole).toBe(true)
}

it('aggregate and water of the first cone are asked for once, with the batch, and a correction there reaches the cone', async () => {
  const { lab, testId, weigh, resultOf } = await readCones()
  const { method } = await testApp.services.bench.view.one(lab.people.technician.actor, testId)
  const asked = (method.steps as { key: string; readings: { key: string }[] }[]).find(({ key }) => key === 'cone-1')
  expect(asked!.readings.map(({ key }) => key)).toEqual(['flow', 'segregation'])

  expect(await resultOf('consistency')).toMatchObject({ value: '20' })
  expect(await resultOf('water-for-consistency')).toMatchObject({
    value: null,
    refusal: { code: 'missing-reading', text: expect.stringContaining('batch of the sheet') as string },
  })
  await weigh('aggregate', '400.0')
  const { id } = await weigh('water', '40.0')
  // 20 mm at 10 % and 30 mm at 12 %: 25 mm at 11 %.
  expect(await resultOf('water-for-consistency')).toMatchObject({ value: '11', refusal: null })
  await testApp.services.bench.readings.correct(lab.people.technician.actor, id, {
    id: newId(),
    typed: '44.0',
    reason: 'Mistyped',
    time: timeNow(testApp),
  })
  expect(await resultOf('water-for-consistency')).toMatchObject({ value: '11.5' })
  await expectSound(lab)
})

it('the batch weighed while its cone is read, at once over two connections, leaves no result behind', async () => {
  const { lab, testId, post, weigh, resultOf } = await readCones()
  await weigh('aggregate', '400.0')
  await Promise.all([
    weigh('water', '40.0'),
    post(testId, 'cone-2', 'filler', '4.00'),
    post(testId, 'cone-2', 'emulsion', '48.0'),
  ])
  expect(await resultOf('water-for-consistency')).toMatchObject({ value: '11', refusal: null })
  await expectSound(lab)
})

it('what a device or a record holds of the first cone from before is taken, shown and put right at the cone', async () => {
  const { lab, testId, post, weigh, resultOf } = await readCones()
  const technician = lab.people.technician.actor
  await weigh('aggregate', '400.0')
  await weigh('water', '44.0')
  expect(await resultOf('water-for-consistency')).toMatchObject({ value: '11.5' })
  // As the form asked for it before: its own weighings go before those of the batch.
  await post(testId, 'cone-1', 'aggregate', '400.0')
  const { id } = await post(testId, 'cone-1', 'water', '38.0')
  expect(await resultOf('water-for-consistency')).toMatchObject({ value: '10.75' })
  await testApp.services.bench.readings.correct(technician, id, {
    id: newId(),
    typed: '40.0',
    reason: 'Mistyped',
    time: timeNow(testApp),
  })
  expect(await resultOf('water-for-consistency')).toMatchObject({ value: '11' })
  const { method } = await testApp.services.bench.view.one(technician, testId)
  const shown = (method.steps as { key: string; readings: { key: string }[] }[]).find(({ key }) => key === 'cone-1')!
  expect(shown.readings.map(({ key }) => key)).toEqual(['aggregate', 'water', 'flow', 'segregation'])
  await expectSound(lab)
})
