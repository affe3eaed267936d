import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, confirm, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { countStatements } from '../../../../../tests/support/count-statements.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { createMaintenanceService } from './maintenance.service.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const day = (days: number) => new Date(testApp.clock.now().getTime() + days * 86_400_000).toISOString().slice(0, 10)
const open = async (lab: TestLaboratory) =>
  (await testApp.services.deviations.list(lab.people.engineer.actor, { open: true, designId: null })).items
const view = (lab: TestLaboratory, testId: string) =>
  testApp.services.bench.view.one(lab.people.technician.actor, testId)

/** A cast disc, an oven and a machine, each with a calibration that holds for so many days. */
async function cast({ oven: ovenDays, machine: machineDays }: { oven: number; machine: number }) {
  const lab = await makeLaboratory(testApp)
  const oven = await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven, 60 °C' })
  const machine = await makeInstrument(testApp, lab)
  await makeFactor(testApp, lab, machine.id)
  for (const [id, days] of [
    [oven.id, ovenDays],
    [machine.id, machineDays],
  ] as const)
    await testApp.services.instruments.addCalibration(lab.people.manager.actor, id, {
      id: newId(),
      doneOn: '2026-01-05',
      validUntil: day(days),
      certificate: 'C-1',
      passed: true,
    })
  const { specimens } = await makePlannedDesign(testApp, lab)
  const testId = specimens[0]!.testId
  const act = async (step: string, kind: 'start' | 'end', instrumentId: string | null = null) => {
    const { rows } = await confirm(testApp, lab, [testId], step, kind, instrumentId)
    expect(rows).toMatchObject([{ outcome: 'done' }])
  }
  const weigh = (step: string, typed: string) =>
    testApp.services.bench.readings.post(lab.people.technician.actor, testId, aReading(testApp, step, 'mass', typed))
  await act('cast', 'start')
  return { lab, oven, machine, testId, act, weigh }
}

describe('a step done in an oven or on a machine out of its calibration', () => {
  it('holds the weighing that rests on it, says which and since when, and lets it count when released', async () => {
    const { lab, oven, machine, testId, act, weigh } = await cast({ oven: 60, machine: -1 })
    await act('cure', 'start', oven.id)
    const { value: before } = await weigh('weigh-before', '759.5')
    expect(before.reading.waits).toBe(false)
    await act('soak', 'start')
    testApp.clock.advance({ minutes: 62 })
    await act('abrade', 'start', machine.id)
    const { value } = await weigh('weigh-after', '740.7')
    expect(value.reading.waits).toBe(true)
    expect(value.waits).toHaveLength(1)
    expect(value.waits[0]!.text).toContain('The calibration of WTA-1 ended on')
    expect(value.waits[0]!.sentence).toContain('a manager or engineer can release it: Person engineer')
    expect(value.results.find(({ key }) => key === 'loss')).toBeUndefined()
    const [deviation, ...others] = await open(lab)
    expect(others).toEqual([])
    expect(deviation).toMatchObject({ kind: 'calibration', testId, waiting: { typed: ['740.7'] } })
    await testApp.services.deviations.decide(lab.people.engineer.actor, deviation!.id, {
      id: newId(),
      kind: 'release',
      reason: 'Factor as found unchanged',
      readingIds: deviation!.waiting!.readingIds,
      spareTestId: null,
    })
    expect((await view(lab, testId)).results.find(({ key }) => key === 'loss')).toMatchObject({ value: '18.8' })
    const maintenance = createMaintenanceService({
      laboratory: testApp.services.laboratory,
      methods: testApp.services.methods,
    })
    expect(await maintenance.checkProjections(lab.labId)).toEqual([])
    expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
  })

  it('of an oven holds the weighing after the cure alone, also where a load took it there', async () => {
    const { lab, oven, testId, weigh } = await cast({ oven: -1, machine: 60 })
    const { value: load } = await testApp.services.loads.open(lab.people.technician.actor, {
      id: newId(),
      instrumentId: oven.id,
      time: timeNow(testApp),
    })
    await testApp.services.loads.putIn(lab.people.technician.actor, load.id, {
      rows: [{ id: newId(), testId, stepKey: 'cure' }],
      time: timeNow(testApp),
      temperature: null,
    })
    const { value } = await weigh('weigh-before', '759.5')
    expect(value.waits.map(({ text }) => text).join()).toContain('The calibration of OV-1 ended on')
    expect((await weigh('weigh-after', '740.7')).value.reading.waits).toBe(false)
  })

  it('told after the weighing holds it from then on, whichever of the two comes first', async () => {
    const { lab, machine, testId, act, weigh } = await cast({ oven: 60, machine: -1 })
    await weigh('weigh-before', '759.5')
    await weigh('weigh-after', '740.7')
    const lossNow = async () => (await view(lab, testId)).results.find(({ key }) => key === 'loss')
    expect(await lossNow()).toMatchObject({ value: '18.8' })
    await act('abrade', 'start', machine.id)
    expect(await lossNow()).toMatchObject({ value: null, refusal: { code: 'waits-for-release' } })

    const second = await cast({ oven: 60, machine: -1 })
    await second.weigh('weigh-before', '759.5')
    await Promise.all([second.act('abrade', 'start', second.machine.id), second.weigh('weigh-after', '740.7')])
    expect((await open(second.lab)).map(({ waiting }) => waiting?.typed)).toEqual([['740.7']])
  })

  it('says at the bench which, since when, and who can put it right', async () => {
    const { lab, machine, testId } = await cast({ oven: 60, machine: -1 })
    const { instruments } = await view(lab, testId)
    expect(instruments.find(({ id }) => id === machine.id)!.fault).toBe(
      `The calibration of WTA-1 ended on ${day(-1)}; it was used on ${day(0)}. A manager can record its calibration: Person manager.`,
    )
  })

  it('is looked up with as many statements for three instruments as for one', async () => {
    const run = async (hasMore: boolean) => {
      const { lab, oven, machine, act, weigh } = await cast({ oven: 60, machine: 60 })
      const bath = await makeInstrument(testApp, lab, { code: 'BA-1', kind: 'bath', name: 'Bath, 25 °C' })
      await weigh('weigh-before', '759.5')
      await act('soak', 'start', hasMore ? bath.id : null)
      testApp.clock.advance({ minutes: 62 })
      await act('abrade', 'start', machine.id)
      await act('dry-back', 'start', hasMore ? oven.id : null)
      return countStatements(() => weigh('weigh-after', '740.7'))
    }
    expect(await run(true)).toBe(await run(false))
  })
})
