import type { PostReading } from '@curebook/contract/bench'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../app.ts'
import type { TestLaboratory } from './laboratory.ts'

/** Said now, by a device whose clock is right. */
export function timeNow({ clock }: Pick<TestApp, 'clock'>) {
  const now = clock.now().toISOString()
  return { eventAt: now, eventFrom: 'now' as const, sentAt: now }
}

/** A reading as the bench page sends it. */
export function aReading(
  testApp: TestApp,
  stepKey: string,
  key: string,
  typed: string,
  changes: Partial<PostReading> = {},
): PostReading {
  return {
    id: newId(),
    stepKey,
    key,
    repeat: 1,
    typed,
    instrumentId: null,
    confirmedOdd: false,
    deviceId: null,
    time: timeNow(testApp),
    ...changes,
  }
}

/** Confirms one act for tests now. */
export async function confirm(
  testApp: TestApp,
  lab: TestLaboratory,
  testIds: readonly string[],
  stepKey: string,
  kind: 'start' | 'end',
  instrumentId: string | null = null,
) {
  return testApp.services.bench.stepEvents.confirm(lab.people.technician.actor, {
    stepKey,
    kind,
    rows: testIds.map((testId) => ({ id: newId(), testId })),
    instrumentId,
    time: timeNow(testApp),
  })
}

/** Weighs a batch as given, in g, and confirms that the emulsion went in. */
export async function weighBatch(
  testApp: TestApp,
  lab: TestLaboratory,
  batchTestId: string,
  grams: Record<'aggregate' | 'filler' | 'water' | 'additive' | 'emulsion', string>,
) {
  for (const [component, typed] of Object.entries(grams))
    await testApp.services.bench.readings.post(
      lab.people.technician.actor,
      batchTestId,
      aReading(testApp, 'weigh-components', component, typed),
    )
  await confirm(testApp, lab, [batchTestId], 'mix', 'start')
}

/** Takes a disc from casting to its last weighing inside every window; `soakMinutes` of 62 or as told. */
export async function runDisc(
  testApp: TestApp,
  lab: TestLaboratory,
  testId: string,
  machineId: string,
  { w1, w2, soakMinutes = 62 }: { w1: string; w2: string; soakMinutes?: number },
) {
  const { clock, services } = testApp
  const technician = lab.people.technician.actor
  const act = (stepKey: string, kind: 'start' | 'end', instrumentId: string | null = null) =>
    confirm(testApp, lab, [testId], stepKey, kind, instrumentId)
  await act('cast', 'start')
  clock.advance({ hours: 1 })
  await act('cure', 'start')
  clock.advance({ hours: 20 })
  await act('cure', 'end')
  clock.advance({ hours: 1 })
  await act('cool', 'end')
  await services.bench.readings.post(technician, testId, aReading(testApp, 'weigh-before', 'mass', w1))
  await act('soak', 'start')
  clock.advance({ minutes: soakMinutes })
  await act('abrade', 'start', machineId)
  clock.advance({ minutes: 15 })
  await act('dry-back', 'start')
  clock.advance({ hours: 17 })
  await act('dry-back', 'end')
  clock.advance({ hours: 1 })
  await act('cool-after', 'end')
  return services.bench.readings.post(technician, testId, aReading(testApp, 'weigh-after', 'mass', w2))
}
