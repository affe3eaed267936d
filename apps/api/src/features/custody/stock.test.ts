import type { Stock } from '@curebook/contract/custody'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aSeries, makeMaterial, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:40:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const now = () => {
  const at = testApp.clock.now().toISOString()
  return { eventAt: at, eventFrom: 'now', sentAt: at }
}
const stockOf = async (id: string): Promise<Stock> => {
  const { body } = await lab.as('auditor').get(lab.path('/stock')).expect(200)
  return body.items.find((item: Stock) => item.id === id)
}
const weigh = (testId: string, key: string, typed: string) =>
  lab
    .as('technician')
    .post(lab.path(`/tests/${testId}/readings`))
    .send({ id: newId(), stepKey: 'weigh-components', key, repeat: 1, typed, time: now() })
    .expect(201)
async function act(itemId: string, body: object) {
  const { custody } = (
    await lab
      .as('technician')
      .get(lab.path(`/items/${itemId}`))
      .expect(200)
  ).body
  await lab
    .as('technician')
    .post(lab.path(`/items/${itemId}/custody`))
    .send({ id: newId(), after: custody.lastEventId, time: now(), ...body })
    .expect(201)
}

test('what batches weighed is drawn of the sample that their design names, a correction counting instead', async () => {
  const { design, specimens } = await makePlannedDesign(testApp, lab, aSeries({ contents: ['11', '12'] }))
  const [first, second] = specimens as [(typeof specimens)[0], (typeof specimens)[0]]
  await weigh(first.batchTestId, 'emulsion', '88.2')
  await weigh(second.batchTestId, 'emulsion', '96.4')
  await weigh(second.batchTestId, 'filler', '8.02')
  expect(await stockOf(design.materials.emulsion.id)).toMatchObject({
    drawnG: '184.6',
    batches: 2,
    receivedG: null,
    leftG: null,
  })
  expect(await stockOf(design.materials.filler!.id)).toMatchObject({ drawnG: '8.02', batches: 1 })
  expect(await stockOf(design.materials.water!.id)).toMatchObject({ drawnG: '0', batches: 0 })
  const { readings } = await testApp.services.bench.view.one(lab.people.technician.actor, first.batchTestId)
  await lab
    .as('technician')
    .post(lab.path(`/readings/${readings[0]!.id}/corrections`))
    .send({ id: newId(), typed: '88.9', reason: 'misread', time: now() })
    .expect(201)
  expect((await stockOf(design.materials.emulsion.id)).drawnG).toBe('185.3')
})

test('what is left is what came less what was drawn and lost', async () => {
  const { id } = await makeMaterial(testApp, lab, 'aggregate', {
    receipt: { containerCount: 3, containers: ['24.8 kg', '25.3 kg', '24.1 kg'] },
  })
  expect(await stockOf(id)).toMatchObject({
    receivedG: '74200',
    leftG: '74200',
    containers: ['24.8 kg', '25.3 kg', '24.1 kg'],
    bags: [],
  })
  const pieces = Array.from({ length: 34 }, () => ({ id: newId(), kind: 'bag', mass: '800' }))
  await act(id, { kind: 'split', pieces, loss: '200', fraction: 'passing 4.75 mm', scalped: '5.9' })
  await act(id, { kind: 'split', pieces: [{ id: newId(), kind: 'bag', mass: '300.0' }] })
  await act(pieces[0]!.id, { kind: 'split', pieces: [{ id: newId(), kind: 'split', mass: '400' }], loss: '0.5' })
  await act(pieces[1]!.id, { kind: 'disposed', note: 'Torn' })
  expect(await stockOf(id)).toMatchObject({
    lostG: '200.5',
    goneG: '800',
    leftG: '73199.5',
    overdrawn: false,
    bags: [
      { fraction: 'passing 4.75 mm', massG: '800', made: 34, unused: 32 },
      { fraction: null, massG: '300', made: 1, unused: 1 },
    ],
  })
})

test('what batches drew is no loss of a split, and is taken off once', async () => {
  const { id } = await makeMaterial(testApp, lab, 'aggregate', {
    receipt: { containerCount: 1, containers: ['25 kg'] },
  })
  const { specimens } = await makePlannedDesign(testApp, lab, aSeries({ contents: ['11', '12'] }), {
    changes: { aggregateId: id },
  })
  await weigh(specimens[0]!.batchTestId, 'aggregate', '800')
  const shown = (
    await lab
      .as('auditor')
      .get(lab.path(`/items/${id}`))
      .expect(200)
  ).body
  expect(shown.custody.massG).toBe('24200')
  const away = newId()
  await act(id, { kind: 'split', pieces: [{ id: away, kind: 'split', mass: '1 kg' }], left: '23200' })
  expect(await stockOf(id)).toMatchObject({ receivedG: '25000', drawnG: '800', lostG: '0', leftG: '24200' })
  await act(away, { kind: 'sent', to: 'Regional laboratory', signedFor: 'J. Moor' })
  expect(await stockOf(id)).toMatchObject({ goneG: '1000', leftG: '23200', overdrawn: false })
})

test('a sample of another laboratory is no stock of this one', async () => {
  const elsewhere = await makeLaboratory(testApp)
  const { id } = await makeMaterial(testApp, elsewhere, 'filler')
  expect(await stockOf(id)).toBeUndefined()
})
