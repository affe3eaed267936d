import type { SpecimenRow } from '@curebook/contract/designs'
import { expect } from 'vitest'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import type { TestApp } from './app.ts'
import { aReading, confirm, timeNow, weighBatch } from './factories/bench.ts'
import { aSeries, makePlannedDesign } from './factories/design.ts'
import { makeInstrument } from './factories/instrument.ts'
import type { TestLaboratory } from './factories/laboratory.ts'
import { makeBenchMorning } from './journey-bench-start.ts'

export type ShiftMorning = Awaited<ReturnType<typeof makeShiftMorning>>

/**
 * The morning at the bench (journey-bench-start.ts), which is the first technician's; for the second one a rack of twenty discs
 * that cooled and were not weighed yet, and two discs in the bath of six days. A balance stands there that nobody has told of
 * how it sends.
 */
export async function makeShiftMorning(testApp: TestApp, lab: TestLaboratory) {
  const { clock, services } = testApp
  const { manager, technician2 } = lab.people
  const balance = await makeInstrument(testApp, lab, {
    code: 'BAL-1',
    kind: 'balance',
    name: 'Bench balance',
    capacity: '2000',
    capacityUnit: 'g',
    resolution: '0.1',
  })
  await services.instruments.addCalibration(manager.actor, balance.id, {
    id: newId(),
    doneOn: '2026-01-12',
    validUntil: '2027-01-12',
    certificate: 'K-31',
    passed: true,
  })
  const bath = await makeInstrument(testApp, lab, { code: 'BATH-1', kind: 'bath', name: 'Bath, 25 °C' })
  const rack = await planned(testApp, lab, 'A rack of twenty', 'wet-track-abrasion-1h', ['10', '11', '12', '13'], 5)
  const soaking = await planned(testApp, lab, 'In the bath', 'wet-track-abrasion-6d', ['10', '12'], 1)
  const all = [...rack, ...soaking].map(({ testId }) => testId)
  await services.schedule.assign(manager.actor, { testIds: all, to: technician2.actor.membershipId }, newId())
  await weighBatches(testApp, lab, [...rack, ...soaking])
  const start = clock.now().getTime()
  for (const [step, kind, hours] of [
    ['cast', 'start', 1],
    ['cure', 'start', 2],
    ['cure', 'end', 22],
    ['cool', 'end', 23],
  ] as const) {
    clock.set(new Date(start + hours * 3_600_000).toISOString())
    const { rows } = await confirm(testApp, lab, all, step, kind)
    expect(rows.filter(({ outcome }) => outcome !== 'done')).toEqual([])
  }
  const load = newId()
  const time = timeNow(testApp)
  for (const { testId } of soaking)
    await services.bench.readings.post(technician2.actor, testId, aReading(testApp, 'weigh-before', 'mass', '760.0'))
  await services.loads.open(technician2.actor, { id: load, instrumentId: bath.id, time })
  await services.loads.putIn(technician2.actor, load, {
    rows: soaking.map(({ testId }) => ({ id: newId(), testId, stepKey: 'soak' })),
    time,
    temperature: null,
  })
  const morning = await makeBenchMorning(testApp, lab)
  return { balance: balance.id, rack, soaking, morning }
}

/** As the series asks for, of 800 g of aggregate; several at once, as several people would. */
async function weighBatches(testApp: TestApp, lab: TestLaboratory, specimens: readonly SpecimenRow[]) {
  const queue = [...specimens]
  const weigh = async () => {
    for (let next = queue.pop(); next !== undefined; next = queue.pop())
      await weighBatch(testApp, lab, next.batchTestId, {
        aggregate: '800.0',
        filler: '8.0',
        water: '80.0',
        additive: '1.6',
        emulsion: `${Number(next.emulsionPercent) * 8}.0`,
      })
  }
  await Promise.all([weigh(), weigh(), weigh(), weigh()])
}

async function planned(
  testApp: TestApp,
  lab: TestLaboratory,
  name: string,
  methodKey: string,
  contents: string[],
  replicates: number,
): Promise<SpecimenRow[]> {
  const series = aSeries({ contents, methods: [{ methodKey, replicates, spares: [] }] })
  return (await makePlannedDesign(testApp, lab, series, { name })).specimens
}
