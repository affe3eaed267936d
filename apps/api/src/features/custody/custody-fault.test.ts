import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, confirm } from '../../../../../tests/support/factories/bench.ts'
import { makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

async function act(itemId: string, body: object) {
  const { technician } = lab.people
  testApp.clock.advance({ minutes: 1 })
  const at = testApp.clock.now().toISOString()
  const { custody } = await testApp.services.custody.read(technician.actor, itemId)
  await testApp.services.custody.record(technician.actor, itemId, {
    id: newId(),
    after: custody.lastEventId,
    time: { eventAt: at, eventFrom: 'now', sentAt: at },
    ...body,
  } as never)
  testApp.clock.advance({ minutes: 1 })
}
const post = async (testId: string, step: string, key: string, typed: string, more: object = {}) =>
  (
    await testApp.services.bench.readings.post(lab.people.technician.actor, testId, {
      ...aReading(testApp, step, key, typed),
      ...more,
    })
  ).value
const open = async () =>
  (await testApp.services.deviations.list(lab.people.engineer.actor, { open: true, designId: null })).items

test('a reading on what was disposed of is kept, and does not count until it is released', async () => {
  const { specimens } = await makePlannedDesign(testApp, lab)
  const { testId, itemId } = specimens[0]!
  await confirm(testApp, lab, [testId], 'cast', 'start')
  await confirm(testApp, lab, [testId], 'cure', 'start')
  await act(itemId, { kind: 'taken' })
  expect((await post(testId, 'weigh-before', 'mass', '759.5')).reading.waits).toBe(false)
  await act(itemId, { kind: 'disposed', note: 'Wrong rack' })

  const { reading } = await post(testId, 'weigh-after', 'mass', '740.7')
  expect(reading).toMatchObject({ typed: '740.7', waits: true })
  const [deviation, ...others] = await open()
  expect(others).toEqual([])
  expect(deviation).toMatchObject({ kind: 'custody', text: expect.stringContaining('It was disposed of') })
  await testApp.services.deviations.decide(lab.people.engineer.actor, deviation!.id, {
    id: newId(),
    kind: 'release',
    reason: 'The wrong code was scanned at the bin; the disc stood in its rack',
    readingIds: deviation!.waiting!.readingIds,
    spareTestId: null,
  })
  const { results } = await testApp.services.bench.view.one(lab.people.technician.actor, testId)
  expect(results.find(({ key }) => key === 'loss')).toMatchObject({ value: '18.8' })
})

test('a batch that draws of a sample gone from the laboratory waits; one from a piece that stayed does not', async () => {
  const { design, specimens } = await makePlannedDesign(testApp, lab)
  const { batchTestId } = specimens[0]!
  const [aggregate, emulsion] = [design.materials.aggregate.id, design.materials.emulsion.id]
  await act(aggregate, {
    kind: 'split',
    pieces: [{ id: newId(), kind: 'bag', mass: '800' }],
    loss: '0',
    weighed: '800',
  })
  expect((await post(batchTestId, 'weigh-components', 'aggregate', '800.0')).reading.waits).toBe(false)
  await act(aggregate, { kind: 'disposed', note: 'Empty bag' })
  expect((await post(batchTestId, 'weigh-components', 'filler', '8.00')).reading.waits).toBe(false)

  await act(emulsion, { kind: 'sent', to: 'Regional laboratory', signedFor: 'Note 7' })
  expect((await post(batchTestId, 'weigh-components', 'emulsion', '96.0')).reading.waits).toBe(true)
  expect(await open()).toMatchObject([
    {
      kind: 'custody',
      text: expect.stringContaining(`Its material ${design.materials.emulsion.code}: It is with Regional`),
    },
  ])
})

test('custody is judged at the time of the act, not of its entry', async () => {
  const { design, specimens } = await makePlannedDesign(testApp, lab)
  const before = testApp.clock.now()
  await act(design.materials.emulsion.id, { kind: 'disposed', note: 'Old' })
  const time = {
    eventAt: before.toISOString(),
    eventFrom: 'paper',
    sentAt: testApp.clock.now().toISOString(),
    note: 'From the notebook',
  }
  const { reading } = await post(specimens[0]!.batchTestId, 'weigh-components', 'emulsion', '96.0', { time })
  expect(reading.waits).toBe(false)
  expect(await open()).toEqual([])
})
