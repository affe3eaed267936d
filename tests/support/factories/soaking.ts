import { expect } from 'vitest'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../app.ts'
import { aReading, confirm, timeNow } from './bench.ts'
import { aSeries, makePlannedDesign } from './design.ts'
import { makeInstrument } from './instrument.ts'
import { makeLaboratory } from './laboratory.ts'

const sixDays = aSeries({
  contents: ['10', '12'],
  methods: [{ methodKey: 'wet-track-abrasion-6d', replicates: 1, spares: [] }],
})

/** Discs of two designs put into the bath for six days; one more is cast, cured and weighed, and stays outside. */
export async function soakDiscs(testApp: TestApp) {
  const lab = await makeLaboratory(testApp)
  const bath = await makeInstrument(testApp, lab, { code: 'BATH-1', kind: 'bath', name: 'Bath, 25 °C' })
  const first = await makePlannedDesign(testApp, lab, sixDays, { name: 'First' })
  const second = await makePlannedDesign(testApp, lab, sixDays, { name: 'Second' })
  const inside = [...first.specimens, second.specimens[0]!]
  const outside = second.specimens[1]!
  const ids = inside.map(({ testId }) => testId)
  await confirm(testApp, lab, [...ids, outside.testId], 'cast', 'start')
  for (const [step, kind, hours] of [
    ['cure', 'start', 1],
    ['cure', 'end', 20],
    ['cool', 'end', 1],
  ] as const) {
    testApp.clock.advance({ hours })
    await confirm(testApp, lab, [...ids, outside.testId], step, kind)
  }
  for (const id of [...ids, outside.testId])
    await testApp.services.bench.readings.post(
      lab.people.technician.actor,
      id,
      aReading(testApp, 'weigh-before', 'mass', '760.0'),
    )
  const load = newId()
  const time = timeNow(testApp)
  await testApp.services.loads.open(lab.people.technician.actor, { id: load, instrumentId: bath.id, time })
  const moved = await testApp.services.loads.putIn(lab.people.technician.actor, load, {
    rows: ids.map((testId) => ({ id: newId(), testId, stepKey: 'soak' })),
    time,
    temperature: null,
  })
  expect(moved.outcome.rows.every(({ outcome }) => outcome === 'done')).toBe(true)
  return { lab, bath, load, inside, outside, designs: [first.design.id, second.design.id] as const }
}
