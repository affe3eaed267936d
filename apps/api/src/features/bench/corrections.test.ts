import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createMaintenanceService } from '#features/bench/maintenance.service'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { runDisc, timeNow } from '../../../../../tests/support/factories/bench.ts'
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
