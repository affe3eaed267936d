import { afterAll, beforeAll, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

/** What a disc that lost 10.0 g comes to; the machine's factor changed on 3 March. The device's clock is behind by so much. */
async function lossOfRun({ zone, at, clockBehindS = 0 }: { zone: string; at: string; clockBehindS?: number }) {
  testApp.clock.set('2026-03-02T12:00:00Z')
  const lab = await makeLaboratory(testApp, { zone })
  const machine = await makeInstrument(testApp, lab)
  const { specimens } = await makePlannedDesign(testApp, lab, aSeries())
  const { testId } = specimens[0]!
  testApp.clock.set(at)
  const { readings, stepEvents } = testApp.services.bench
  const technician = lab.people.technician.actor
  const sentAt = new Date(testApp.clock.now().getTime() - clockBehindS * 1000).toISOString()
  await readings.post(technician, testId, aReading(testApp, 'weigh-before', 'mass', '760.0'))
  const { rows } = await stepEvents.confirm(technician, {
    stepKey: 'abrade',
    kind: 'start',
    rows: [{ id: newId(), testId }],
    instrumentId: machine.id,
    time: { ...timeNow(testApp), eventAt: sentAt, sentAt },
  })
  expect(rows.map(({ outcome }) => outcome)).toEqual(['done'])
  // The factors are entered once they hold, after the run.
  testApp.clock.set('2026-03-04T12:00:00Z')
  const { id } = await makeFactor(testApp, lab, machine.id, { typed: '30', effectiveFrom: '2026-01-01' })
  await makeFactor(testApp, lab, machine.id, {
    typed: '31',
    effectiveFrom: '2026-03-03',
    supersedes: { id, reason: 'New holder' },
  })
  const { value } = await readings.post(technician, testId, aReading(testApp, 'weigh-after', 'mass', '750.0'))
  return value.results.find(({ key, unit }) => key === 'loss-per-area' && unit === 'g/m²')?.value
}

it('a run is judged by the factor of its day on the laboratory’s calendar, ahead of UTC and behind it', async () => {
  expect(await lossOfRun({ zone: 'Pacific/Auckland', at: '2026-03-02T20:00:00Z' })).toBe('310')
  expect(await lossOfRun({ zone: 'America/Chicago', at: '2026-03-03T03:00:00Z' })).toBe('300')
})

it('takes the day of a run by the server’s clock when the device’s is behind', async () => {
  const told = { zone: 'Europe/London', clockBehindS: 150 }
  expect(await lossOfRun({ ...told, at: '2026-03-03T00:01:00Z' })).toBe('310')
  expect(await lossOfRun({ ...told, at: '2026-03-02T23:59:00Z' })).toBe('300')
})
