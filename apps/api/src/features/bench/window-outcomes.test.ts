import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, runDisc, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

it('of a reading that was taken back no verdict stands until it is read again', async () => {
  const lab = await makeLaboratory(testApp)
  const machine = await makeInstrument(testApp, lab)
  await makeFactor(testApp, lab, machine.id)
  const { design, specimens } = await makePlannedDesign(testApp, lab, aSeries())
  const { testId } = specimens[0]!
  const technician = lab.people.technician.actor
  const { value } = await runDisc(testApp, lab, testId, machine.id, { w1: '759.5', w2: '704.7' })
  const doubtful = async () =>
    (await testApp.services.review.read(lab.people.engineer.actor, design.id)).points.filter(
      ({ kind }) => kind === 'device-clock',
    )
  const weigh = (typed: string, offsetMinutes: number) => {
    const now = testApp.clock.now().getTime()
    const told = new Date(now - offsetMinutes * 60_000).toISOString()
    const time = { eventAt: told, eventFrom: 'now' as const, sentAt: told }
    return testApp.services.bench.readings.post(
      technician,
      testId,
      aReading(testApp, 'weigh-after', 'mass', typed, { time }),
    )
  }
  const takeBack = (readingId: string) =>
    testApp.services.bench.withdrawals.withdraw(technician, readingId, { id: newId(), time: timeNow(testApp) })
  expect(await doubtful()).toEqual([])
  await takeBack(value.reading.id)
  testApp.clock.advance({ minutes: 1 })
  // By a clock ten minutes slow the window is judged in doubt.
  const again = await weigh('740.7', 10)
  expect(await doubtful()).toHaveLength(1)
  testApp.clock.advance({ seconds: 5 })
  await takeBack(again.value.reading.id)
  expect(await doubtful()).toEqual([])
  testApp.clock.advance({ minutes: 1 })
  await weigh('740.9', 0)
  expect(await doubtful()).toEqual([])
  const stored = await testApp.services.laboratory.inLaboratory(technician, ({ prisma }) =>
    prisma.windowOutcome.findMany({ where: { labId: lab.labId, testId, windowKey: 'weigh-after' } }),
  )
  // Each stands in the place of the one before: one chain, nothing deleted.
  expect(stored).toHaveLength(3)
  expect(stored.filter(({ supersedesId }) => supersedesId === null)).toHaveLength(1)
})
