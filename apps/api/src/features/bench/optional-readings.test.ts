import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { weighBatches } from '../../../../../tests/support/factories/tested-design.ts'
import { createMaintenanceService } from './maintenance.service.ts'

vi.setConfig({ testTimeout: 120_000 })

// Readings that need not be taken: nothing is missing without them, and what followed from them must not outlive them.

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

/** A strip of which everything that must be read was read; the weighings in water are wanted besides. */
async function measuredStrip() {
  const lab = await makeLaboratory(testApp)
  const { id } = await makeDesign(testApp, lab)
  const { body } = await lab
    .as('engineer')
    .post(lab.path(`/designs/${id}/plan`))
    .set('idempotency-key', newId())
    .send({
      contents: [{ emulsionPercent: '12', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
      methods: [{ methodKey: 'loaded-wheel-displacement', replicates: 1, spares: [] }],
    })
    .expect(200)
  await weighBatches(testApp, lab, body.items)
  const testId: string = body.items[0].testId
  const read = async (step: string, key: string, typed: string, instrumentId: string | null = null) =>
    (
      await testApp.services.bench.readings.post(
        lab.people.technician.actor,
        testId,
        aReading(testApp, step, key, typed, { confirmedOdd: true, instrumentId }),
      )
    ).value.reading
  await read('measure-before', 'thickness-over', 'strip')
  for (const [step, width, thickness] of [
    ['measure-before', '50.80', '12.70'],
    ['measure-after', '52.07', '12.06'],
  ] as const) {
    await read(step, 'width', width)
    await read(step, 'thickness', thickness)
  }
  return { lab, testId, read }
}
type Strip = Awaited<ReturnType<typeof measuredStrip>>

const gravityOf = async ({ lab, testId }: Strip) =>
  (await testApp.services.bench.view.one(lab.people.technician.actor, testId)).results.find(
    ({ key }) => key === 'specific-gravity',
  )
const withdraw = ({ lab }: Strip, readingId: string) =>
  testApp.services.bench.withdrawals.withdraw(lab.people.technician.actor, readingId, {
    id: newId(),
    time: timeNow(testApp),
  })
async function expectSound({ labId }: TestLaboratory) {
  const maintenance = createMaintenanceService({ laboratory: testApp.services.laboratory, methods: builtInMethods })
  expect(await maintenance.checkProjections(labId)).toEqual([])
  expect((await maintenance.replayResults(labId)).differences).toEqual([])
}
async function overdueBalance(lab: TestLaboratory): Promise<string> {
  const { id } = await makeInstrument(testApp, lab, { code: 'BAL-1', kind: 'balance', name: 'Balance' })
  await testApp.services.instruments.addCalibration(lab.people.manager.actor, id, {
    id: newId(),
    doneOn: '2026-01-05',
    validUntil: '2026-02-01',
    certificate: 'C-1',
    passed: true,
  })
  return id
}

it('one that is taken back takes its result along; read again it brings it back', async () => {
  const strip = await measuredStrip()
  await strip.read('weigh-in-water', 'weighed-as', 'alone')
  await strip.read('weigh-in-water', 'in-air', '500.00')
  const { id } = await strip.read('weigh-in-water', 'in-water', '270.00')
  expect(Number((await gravityOf(strip))?.value)).toBeCloseTo(500 / 230, 10)

  const { value } = await withdraw(strip, id)
  expect(value.results.find(({ key }) => key === 'specific-gravity')).toMatchObject({
    value: null,
    refusal: { code: 'reading-withdrawn', text: expect.stringContaining('read again') as string },
  })
  // What rests on other readings stands.
  expect(value.results.find(({ key }) => key === 'lateral-displacement')).toMatchObject({ value: '2.5', refusal: null })
  await expectSound(strip.lab)
  // Said once: an act on another reading writes no second refusal over it.
  await strip.read('weigh-in-water', 'water-temperature', '25.0')
  await expectSound(strip.lab)

  await strip.read('weigh-in-water', 'in-water', '260.00')
  expect(Number((await gravityOf(strip))?.value)).toBeCloseTo(500 / 240, 10)
  expect(await gravityOf(strip)).toMatchObject({ refusal: null })
  await expectSound(strip.lab)
  expect((await testApp.services.ledger.verify(strip.lab.people.manager.actor, {})).whole).toBe(true)
})

it('one that does not count yet is not passed over: its result waits, the others stand, and a release brings it', async () => {
  const strip = await measuredStrip()
  await strip.read('weigh-in-water', 'weighed-as', 'alone')
  await strip.read('weigh-in-water', 'in-air', '500.00')
  await strip.read('weigh-in-water', 'in-water', '270.00')
  const balance = await overdueBalance(strip.lab)
  expect(await strip.read('weigh-in-water', 'surface-dry', '505.00', balance)).toMatchObject({ waits: true })
  expect(await gravityOf(strip)).toMatchObject({
    value: null,
    refusal: {
      code: 'waits-for-release',
      text: 'Waits for release: Surface dry, after the water of “Weigh in air and in water, for the specific gravity” is kept and does not count yet.',
    },
  })
  const { results } = await testApp.services.bench.view.one(strip.lab.people.technician.actor, strip.testId)
  expect(results.find(({ key }) => key === 'lateral-displacement')).toMatchObject({ value: '2.5' })
  await expectSound(strip.lab)

  const engineer = strip.lab.people.engineer.actor
  const [deviation] = (await testApp.services.deviations.list(engineer, { open: true, designId: null })).items
  await testApp.services.deviations.decide(engineer, deviation!.id, {
    id: newId(),
    kind: 'release',
    reason: 'Calibrated late, no shift as found',
    readingIds: deviation!.waiting!.readingIds,
    spareTestId: null,
  })
  expect(Number((await gravityOf(strip))?.value)).toBeCloseTo(500 / 235, 10)
  await expectSound(strip.lab)
})

it('one that does not count yet and is taken back leaves what was computed without it', async () => {
  const strip = await measuredStrip()
  const balance = await overdueBalance(strip.lab)
  await strip.read('weigh-in-water', 'weighed-as', 'alone')
  const { id: inAir } = await strip.read('weigh-in-water', 'in-air', '500.00', balance)
  // Nothing follows from one mass, with it or without.
  expect(await gravityOf(strip)).toBeUndefined()
  await strip.read('weigh-in-water', 'in-water', '270.00')
  expect(await gravityOf(strip)).toMatchObject({ value: null, refusal: { code: 'waits-for-release' } })
  await withdraw(strip, inAir)
  // Shown, never stored: there was no number that it took the place of.
  expect(await gravityOf(strip)).toBeUndefined()
  await expectSound(strip.lab)
})
