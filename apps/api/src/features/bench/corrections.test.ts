import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createMaintenanceService } from '#features/bench/maintenance.service'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, runDisc, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const valueOf = (results: { key: string; unit: string | null; value: string | null }[], key: string, unit: string) =>
  results.find((result) => result.key === key && result.unit === unit)?.value

/** A disc run inside every window, its last weighing mistyped. */
async function weighedDisc() {
  const lab = await makeLaboratory(testApp)
  const machine = await makeInstrument(testApp, lab)
  await makeFactor(testApp, lab, machine.id)
  const { specimens } = await makePlannedDesign(testApp, lab, aSeries())
  const { value } = await runDisc(testApp, lab, specimens[0]!.testId, machine.id, { w1: '759.5', w2: '704.7' })
  return { lab, specimens, value }
}

describe('a correction the day after', () => {
  async function correctedNextDay(reason: string) {
    const { lab, value } = await weighedDisc()
    testApp.clock.advance({ hours: 20 })
    const corrected = await testApp.services.bench.readings.correct(lab.people.technician.actor, value.reading.id, {
      id: newId(),
      typed: '740.7',
      reason,
      time: timeNow(testApp),
    })
    const { items } = await testApp.services.deviations.list(lab.people.engineer.actor, { open: true, designId: null })
    const maintenance = createMaintenanceService({ laboratory: testApp.services.laboratory, methods: builtInMethods })
    expect(await maintenance.checkProjections(lab.labId)).toEqual([])
    return { lab, value: corrected.value, deviations: items }
  }
  const lastWeighing = (value: Awaited<ReturnType<typeof correctedNextDay>>['value']) =>
    value.windows.find(({ key }) => key === 'weigh-after')

  it('leaves the act when it was: a slip put right misses no window', async () => {
    const { lab, value, deviations } = await correctedNextDay('Mistyped')
    expect(valueOf(value.results, 'loss', 'g')).toBe('18.8')
    expect(value.windows.map(({ state }) => state)).toEqual(value.windows.map(() => 'met'))
    expect(deviations).toEqual([])
    const again = await testApp.services.bench.readings.correct(lab.people.technician.actor, value.reading.id, {
      id: newId(),
      typed: '740.8',
      reason: 'Digits transposed',
      time: timeNow(testApp),
    })
    expect(lastWeighing(again.value)).toMatchObject({ state: 'met' })
  })

  it('is judged by its own time when the specimen was weighed again, and so is a slip in it put right later', async () => {
    const { lab, value, deviations } = await correctedNextDay('Weighed again')
    const judged = lastWeighing(value)
    expect(judged).toMatchObject({ state: 'late', marginSeconds: -19 * 3600 })
    expect(deviations.map(({ text }) => text)).toEqual([expect.stringContaining('too late')])
    testApp.clock.advance({ hours: 1 })
    const again = await testApp.services.bench.readings.correct(lab.people.technician.actor, value.reading.id, {
      id: newId(),
      typed: '740.8',
      reason: 'Mistyped',
      time: timeNow(testApp),
    })
    expect(lastWeighing(again.value)).toEqual(judged)
  })
})

it('a correction keeps the instrument of the reading, the calibration that held then, and the balance’s capacity', async () => {
  const lab = await makeLaboratory(testApp)
  const { specimens } = await makePlannedDesign(testApp, lab, aSeries())
  const [technician, manager] = [lab.people.technician.actor, lab.people.manager.actor]
  const balance = await makeInstrument(testApp, lab, {
    code: 'BAL-1',
    kind: 'balance',
    name: 'Bench balance',
    capacity: '2000',
    capacityUnit: 'g',
    resolution: '0.1',
  })
  const calibrate = async (doneOn: string, certificate: string) =>
    (
      await testApp.services.instruments.addCalibration(manager, balance.id, {
        id: newId(),
        doneOn,
        validUntil: '2027-01-31',
        certificate,
        passed: true,
      })
    ).value
  const { bench } = testApp.services
  const held = await calibrate('2026-01-15', 'C-101')
  const { value } = await bench.readings.post(
    technician,
    specimens[0]!.batchTestId,
    aReading(testApp, 'weigh-components', 'aggregate', '80.0', { instrumentId: balance.id }),
  )
  await calibrate('2026-02-15', 'C-102')
  const correct = (typed: string, id = newId()) =>
    bench.readings.correct(technician, value.reading.id, { id, typed, reason: 'Mistyped', time: timeNow(testApp) })
  await expect(correct('8000.0')).rejects.toMatchObject({ errors: [{ path: 'typed' }] })
  const corrected = await correct('800.0')
  expect(corrected.value.reading.instrument).toEqual({ id: balance.id, code: 'BAL-1' })
  const stored = await testApp.services.laboratory.inLaboratory(technician, ({ prisma }) =>
    prisma.reading.findFirstOrThrow({
      where: { labId: lab.labId, id: corrected.value.reading.id },
      select: { instrumentId: true, calibrationId: true },
    }),
  )
  expect(stored).toEqual({ instrumentId: balance.id, calibrationId: held.id })
})

it('a window closed by a reading from a device whose clock is off is marked as judged by that clock, and stays so', async () => {
  const { lab, value } = await weighedDisc()
  const technician = lab.people.technician.actor
  const outcomes = () =>
    testApp.services.laboratory.inLaboratory(technician, ({ prisma }) =>
      prisma.windowOutcome.findMany({
        where: { labId: lab.labId, windowKey: 'weigh-after' },
        orderBy: { at: 'asc' },
        select: { judgedBy: true, outcome: true },
      }),
    )
  testApp.clock.advance({ minutes: 10 })
  const sentAt = new Date(testApp.clock.now().getTime() - 150_000).toISOString()
  const again = await testApp.services.bench.readings.correct(technician, value.reading.id, {
    id: newId(),
    typed: '740.7',
    reason: 'Weighed again',
    time: { eventAt: sentAt, eventFrom: 'now', sentAt },
  })
  const judged = [
    { judgedBy: 'event', outcome: 'met' },
    { judgedBy: 'device-clock', outcome: 'met' },
  ]
  expect(await outcomes()).toEqual(judged)
  await testApp.services.bench.readings.correct(technician, again.value.reading.id, {
    id: newId(),
    typed: '740.8',
    reason: 'Mistyped',
    time: timeNow(testApp),
  })
  expect(await outcomes()).toEqual(judged)
})
