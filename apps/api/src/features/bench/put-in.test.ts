import type { BenchQueue } from '@curebook/contract/bench'
import type { SpecimenRow } from '@curebook/contract/designs'
import type { PutIn } from '@curebook/contract/put-in'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, confirm, timeNow, weighBatch } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let designId: string
let discs: Map<string, SpecimenRow>

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-04T09:00:00Z' })
})
beforeEach(async () => {
  testApp.clock.set('2026-03-04T09:00:00Z')
  lab = await makeLaboratory(testApp)
  const { design, specimens } = await makePlannedDesign(
    testApp,
    lab,
    aSeries({
      contents: ['10', '12'],
      methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 2, spares: [{ emulsionPercent: '12', count: 1 }] }],
    }),
  )
  designId = design.id
  discs = new Map(specimens.map((specimen) => [specimen.label, specimen]))
})
afterAll(() => testApp.close())

const batch = { aggregate: '800.0', filler: '8.0', water: '80.0', additive: '1.6', emulsion: '96.0' }
const idOf = (label: string) => discs.get(label)!.testId
const read = async (methodKey = 'wet-track-abrasion-1h'): Promise<PutIn> =>
  (
    await lab
      .as('technician')
      .get(lab.path(`/bench/put-in?designId=${designId}&methodKey=${methodKey}`))
      .expect(200)
  ).body

/** Takes discs up to W1. */
async function upToSoak(labels: readonly string[]): Promise<void> {
  const ids = labels.map(idOf)
  await confirm(testApp, lab, ids, 'cast', 'start')
  await confirm(testApp, lab, ids, 'cure', 'start')
  testApp.clock.advance({ hours: 20 })
  await confirm(testApp, lab, ids, 'cure', 'end')
  await confirm(testApp, lab, ids, 'cool', 'end')
  for (const id of ids)
    await testApp.services.bench.readings.post(
      lab.people.technician.actor,
      id,
      aReading(testApp, 'weigh-before', 'mass', '760.0'),
    )
}

test('who waits stands in casting order with spares last, and the bounds are those of the edition', async () => {
  const { soak, waiting, soaking, designName, lastRunAt } = await read()
  expect(soak).toEqual({ earliestMinutes: 60, latestMinutes: 75, edition: 'ISSA TB-100' })
  expect(designName).toBe('Micro-surfacing, Type II')
  const replicates = waiting.map(({ label }) => label.split('-')[1])
  expect(replicates).toEqual(['1', '1', '2', '2', '3'])
  expect(waiting.at(-1)).toMatchObject({ label: '12-3', spare: true, ready: false })
  expect(soaking).toEqual([])
  expect(lastRunAt).toBeNull()
  expect((await read()).later.map(({ offset, title }) => [offset, title])).toEqual([
    [0, 'Soak in the bath (1-hour soak)'],
    [1, 'Dry back'],
  ])
})

test('a disc put in lies in the bath with its own window; once its run has started it is off the list', async () => {
  for (const label of ['10-1', '12-1', '10-2']) await weighBatch(testApp, lab, discs.get(label)!.batchTestId, batch)
  await upToSoak(['10-1', '12-1'])
  expect(
    (await read()).waiting
      .filter(({ ready }) => ready)
      .map(({ label }) => label)
      .toSorted(),
  ).toEqual(['10-1', '12-1'])
  await confirm(testApp, lab, [idOf('12-1')], 'soak', 'start')
  const putInAt = testApp.clock.now().getTime()
  const { soaking, waiting } = await read()
  expect(soaking).toEqual([
    {
      testId: idOf('12-1'),
      code: discs.get('12-1')!.code,
      label: '12-1',
      mayStartAt: new Date(putInAt + 60 * 60_000).toISOString(),
      mustStartAt: new Date(putInAt + 75 * 60_000).toISOString(),
    },
  ])
  expect(waiting.map(({ label }) => label)).not.toContain('12-1')
  const { tasks }: BenchQueue = (await lab.as('technician').get(lab.path('/bench/queue?whose=all')).expect(200)).body
  const offered = (label: string) => tasks.find(({ testId }) => testId === idOf(label))?.putIn
  expect([offered('12-1'), offered('10-1'), offered('10-2')]).toEqual([true, true, false])
  testApp.clock.advance({ minutes: 62 })
  const machine = await makeInstrument(testApp, lab)
  await confirm(testApp, lab, [idOf('12-1')], 'abrade', 'start', machine.id)
  const running = await read()
  expect(running.soaking).toEqual([])
  expect(running.lastRunAt).toBe(testApp.clock.now().toISOString())
})

test('a spare that stands in another’s place is none any more, and a void disc is off the list', async () => {
  await lab
    .as('manager')
    .post(lab.path(`/tests/${idOf('12-2')}/void`))
    .send({ id: newId(), reason: 'Felt tore', time: timeNow(testApp) })
    .expect(200)
  await lab
    .as('manager')
    .post(lab.path(`/tests/${idOf('12-2')}/replace`))
    .send({ spareTestId: idOf('12-3'), reason: 'Second disc void' })
    .expect(200)
  const { waiting } = await read()
  expect(waiting.map(({ label, spare }) => [label, spare])).toContainEqual(['12-3', false])
  expect(waiting.map(({ label }) => label)).not.toContain('12-2')
})

test('a method without such a soak is refused beside its field; another laboratory’s design is not found', async () => {
  const path = (method: string) => `/bench/put-in?designId=${designId}&methodKey=${method}`
  const { body } = await lab
    .as('technician')
    .get(lab.path(path('loaded-wheel-sand-adhesion')))
    .expect(400)
  expect(body.errors[0].path).toBe('methodKey')
  const elsewhere = await makeLaboratory(testApp)
  await elsewhere
    .as('technician')
    .get(elsewhere.path(path('wet-track-abrasion-1h')))
    .expect(404)
})
