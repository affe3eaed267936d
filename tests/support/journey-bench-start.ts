import { newId } from '../../apps/api/src/platform/uuid.ts'
import type { SpecimenRow } from '@curebook/contract/designs'
import type { TestApp } from './app.ts'
import { aReading, confirm, weighBatch } from './factories/bench.ts'
import { aSeries, makePlannedDesign } from './factories/design.ts'
import { makeFactor, makeInstrument } from './factories/instrument.ts'
import type { TestLaboratory } from './factories/laboratory.ts'

const method = 'wet-track-abrasion-1h'
/** Masses after cure, as in the reference design; 12-4 is the spare. */
const w1: Readonly<Record<string, string>> = {
  '12-1': '766.2',
  '12-2': '773.5',
  '12-3': '805.0',
  '13-1': '780.2',
  '13-2': '755.9',
  '13-3': '754.5',
}
/** In the bath and not abraded yet; the others wait for their last weighing. */
export const inTheBath = '13-3'

/**
 * A morning at the bench: five discs of two contents cooled and waiting for W2, one in the bath since 08:00, a spare not
 * weighed yet. Everything so far went through the services, inside its windows.
 */
export async function makeBenchMorning(testApp: TestApp, lab: TestLaboratory): Promise<readonly SpecimenRow[]> {
  const { clock, services } = testApp
  const { manager, technician } = lab.people
  const machine = await makeInstrument(testApp, lab)
  for (const [unit, typed] of [
    ['g/m²', '32.9'],
    ['g/ft²', '3.06'],
  ])
    await makeFactor(testApp, lab, machine.id, { unit: unit as 'g/m²', typed: typed! })
  const spares = [{ emulsionPercent: '12', count: 1 }]
  const series = aSeries({ contents: ['12', '13'], methods: [{ methodKey: method, replicates: 3, spares }] })
  const { specimens } = await makePlannedDesign(testApp, lab, series, { name: 'Morning at the bench' })
  const testIds = specimens.map(({ testId }) => testId)
  await services.schedule.assign(manager.actor, { testIds, to: technician.actor.membershipId }, newId())

  clock.set('2026-03-03T09:00:00Z')
  for (const { batchTestId, emulsionPercent } of specimens) {
    const emulsion = emulsionPercent === '12' ? '96.0' : '104.0'
    await weighBatch(testApp, lab, batchTestId, {
      aggregate: '800.0',
      filler: '8.0',
      water: '80.0',
      additive: '1.6',
      emulsion,
    })
  }
  const discs = specimens.filter(({ purpose }) => purpose === 'series')
  const late = discs.filter(({ label }) => label === inTheBath)
  const early = discs.filter(({ label }) => label !== inTheBath)
  const act = (rows: readonly SpecimenRow[], at: string, step: string, kind: 'start' | 'end', machineId?: string) => {
    clock.set(at)
    const ids = rows.map(({ testId }) => testId)
    return confirm(testApp, lab, ids, step, kind, machineId)
  }
  await act(specimens, '2026-03-03T10:30:00Z', 'cast', 'start')
  await act(specimens, '2026-03-03T11:00:00Z', 'cure', 'start')
  await act(specimens, '2026-03-04T08:00:00Z', 'cure', 'end')
  await act(specimens, '2026-03-04T09:00:00Z', 'cool', 'end')
  for (const { label, testId } of discs)
    await services.bench.readings.post(technician.actor, testId, aReading(testApp, 'weigh-before', 'mass', w1[label]!))
  await act(early, '2026-03-04T10:00:00Z', 'soak', 'start')
  await act(early, '2026-03-04T11:02:00Z', 'abrade', 'start', machine.id)
  await act(early, '2026-03-04T12:00:00Z', 'dry-back', 'start')
  await act(early, '2026-03-05T06:00:00Z', 'dry-back', 'end')
  await act(early, '2026-03-05T07:00:00Z', 'cool-after', 'end')
  await act(late, '2026-03-05T07:00:00Z', 'soak', 'start')
  return specimens
}
