import type { Item, Stock } from '@curebook/contract/custody'
import type { CreateMaterial } from '@curebook/contract/materials'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makeMaterial, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { createStandingCheck } from './standing-check.service.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:40:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const receipt = {
  containerKind: 'bag',
  containers: ['24.8 kg', '25.3 kg'],
  sampledBy: 'Foreman',
  condition: 'good',
} as const
const receive = async (changes: Partial<CreateMaterial> = {}) =>
  (
    await makeMaterial(testApp, lab, 'aggregate', {
      receipt: { ...receipt, containers: [...receipt.containers] },
      ...changes,
    })
  ).id
const item = async (id: string): Promise<Item> =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/items/${id}`))
      .expect(200)
  ).body
const stock = async (id: string): Promise<Stock> =>
  (await lab.as('auditor').get(lab.path('/stock')).expect(200)).body.items.find((row: Stock) => row.id === id)
const correction = async (id: string, changed: object, more: object = {}) => ({
  id: newId(),
  supersedesId: (await item(id)).life.findLast(({ kind, superseded }) => kind === 'received' && !superseded)!.id,
  reason: 'Misread the label',
  receipt: { ...receipt, ...changed },
  ...more,
})
const send = (id: string, body: object, base?: string) =>
  lab
    .as('technician', base)
    .post(lab.path(`/items/${id}/receipt-corrections`))
    .send(body)
const correct = async (id: string, changed: object) => send(id, await correction(id, changed)).expect(201)
async function act(id: string, body: object, base?: string) {
  const at = testApp.clock.now().toISOString()
  const time = { eventAt: at, eventFrom: 'now', sentAt: at }
  return lab
    .as('technician', base)
    .post(lab.path(`/items/${id}/custody`))
    .send({ id: newId(), after: (await item(id)).custody.lastEventId, time, ...body })
}
const split = (mass: string) => ({ kind: 'split', pieces: [{ id: newId(), kind: 'split', mass }] })
const standsRight = async () => expect(await createStandingCheck(testApp.services).check(lab.labId)).toEqual([])

test('a receipt put right stands, and what was told first stays with who, when and why', async () => {
  const id = await receive()
  testApp.clock.advance({ hours: 1 })
  await correct(id, {
    containers: ['24.8 kg', '23.5 kg'],
    sampledBy: 'Plant foreman',
    temperature: '12',
    condition: 'wet',
  })
  const corrected = await item(id)
  expect(corrected.receipt).toMatchObject({
    containers: [{ typed: '24.8 kg' }, { typed: '23.5 kg' }],
    sampledBy: 'Plant foreman',
  })
  expect(corrected.earlierReceipts).toMatchObject([
    {
      receipt: { containers: [{ typed: '24.8 kg' }, { typed: '25.3 kg' }], sampledBy: 'Foreman' },
      correctedBy: { membershipId: lab.people.technician.actor.membershipId },
      correctedAt: testApp.clock.now().toISOString(),
      reason: 'Misread the label',
    },
  ])
  expect(corrected.life).toMatchObject([
    { kind: 'received', massG: '50100', condition: 'good', superseded: true, correction: null },
    {
      kind: 'received',
      massG: '48300',
      condition: 'wet',
      temperatureC: '12',
      superseded: false,
      correction: 'Misread the label',
    },
  ])
  expect(corrected.custody.massG).toBe('48300')
  expect(await stock(id)).toMatchObject({ receivedG: '48300', leftG: '48300', containers: ['24.8 kg', '23.5 kg'] })
  await standsRight()
})

test('the demand check follows what was put right', async () => {
  const id = await receive()
  const { design } = await makePlannedDesign(testApp, lab, aSeries(), { changes: { aggregateId: id } })
  const received = async () => {
    const { body } = await lab
      .as('engineer')
      .get(lab.path(`/designs/${design.id}/demand`))
      .expect(200)
    return JSON.stringify(body)
  }
  expect(await received()).toContain('50100')
  await correct(id, { containers: ['24.8 kg'] })
  expect(await received()).toContain('24800')
  expect(await received()).not.toContain('50100')
})

test('what came later stays: a place, a piece, what batches drew; what is left follows', async () => {
  const id = await receive()
  const { specimens } = await makePlannedDesign(testApp, lab, aSeries(), { changes: { aggregateId: id } })
  const store = { id: newId(), name: 'Store', kind: 'store', accessControlled: true }
  await lab.as('manager').post(lab.path('/places')).send(store).expect(201)
  const reading = aReading(testApp, 'weigh-components', 'aggregate', '800')
  await testApp.services.bench.readings.post(lab.people.technician.actor, specimens[0]!.batchTestId, reading)
  expect((await act(id, split('1 kg'))).status).toBe(201)
  expect((await act(id, { kind: 'placed', placeId: store.id })).status).toBe(201)
  await correct(id, { containers: ['24.8 kg', '25 kg'] })
  expect((await item(id)).custody).toMatchObject({ massG: '48000', custodian: { name: 'Store' } })
  await standsRight()
  // A second one, and an act after it, stand on the first.
  await correct(id, { containers: ['24.8 kg', '25.1 kg'] })
  expect((await act(id, split('100'))).status).toBe(201)
  expect((await item(id)).custody.massG).toBe('48000')
  expect(await stock(id)).toMatchObject({ receivedG: '49900', drawnG: '800', leftG: '49100' })
  await standsRight()
})

test('a place put right is who has it, while nothing happened since', async () => {
  const id = await receive()
  const store = { id: newId(), name: 'Cool store', kind: 'store', accessControlled: true }
  await lab.as('manager').post(lab.path('/places')).send(store).expect(201)
  await correct(id, { placeId: store.id })
  expect((await item(id)).custody).toMatchObject({ status: 'with', custodian: { name: 'Cool store' } })
  await standsRight()
})

test('less than what was drawn or split off already is refused with both numbers', async () => {
  const id = await receive()
  expect((await act(id, split('30 kg'))).status).toBe(201)
  const { body } = await send(id, await correction(id, { containers: ['24.8 kg'] })).expect(400)
  expect(body.errors[0]).toMatchObject({
    path: 'receipt.containers',
    message: expect.stringMatching(/^24800 g is less than the 30000 g that left it already/),
  })
  const volume = await send(id, await correction(id, { containers: ['5 L'] })).expect(400)
  expect(volume.body.errors[0].message).toContain('30000 g were split off it already')
  expect((await item(id)).earlierReceipts).toEqual([])
})

test('what was decided on another receipt, has no reason, or was made here is refused', async () => {
  const id = await receive()
  const first = await correction(id, { sampledBy: 'A' })
  await send(id, first).expect(201)
  await send(id, first).expect(200)
  const { body } = await send(id, { ...first, id: newId() }).expect(409)
  expect(body.detail).toContain('corrected the receipt: Misread the label')
  await send(id, await correction(id, {}, { reason: ' ' })).expect(400)
  const piece = newId()
  expect((await act(id, { kind: 'split', pieces: [{ id: piece, kind: 'bag', mass: '800' }] })).status).toBe(201)
  const made = await send(piece, { ...first, id: newId() }).expect(422)
  expect(made.body.detail).toContain('made here')
})

test('a sample without a receipt gets one', async () => {
  const { id } = await makeMaterial(testApp, lab, 'filler')
  await correct(id, { containers: ['3 kg'] })
  expect(await item(id)).toMatchObject({
    receipt: { containers: [{ typed: '3 kg' }] },
    earlierReceipts: [],
    custody: { massG: '3000' },
  })
  await standsRight()
})

test('two corrections at once: one stands, the other is told; a split at once is held against what stands', async () => {
  const other = await testApp.startAnother()
  try {
    const id = await receive()
    const two = [await correction(id, { containers: ['20 kg'] }), await correction(id, { containers: ['21 kg'] })]
    const answers = await Promise.all([send(id, two[0]!), send(id, two[1]!, other.url)])
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409])
    const body = await correction(id, { containers: ['19 kg'] })
    const [corrected, made] = await Promise.all([send(id, body), act(id, split('19.5 kg'), other.url)])
    // Both cannot be: 19.5 kg are no piece of 19 kg.
    expect([corrected.status === 201, made.status === 201].filter(Boolean)).toHaveLength(1)
    await standsRight()
  } finally {
    await other.close()
  }
})

test('what was weighed before a split stands, whatever mass is told of the receipt afterwards', async () => {
  const id = await receive({ receipt: { ...receipt, containers: ['15 L'] } })
  await act(id, { ...split('1000'), weighed: '20000' }).then(({ status }) => expect(status).toBe(201))
  await correct(id, { containers: ['25 kg'] })
  expect((await item(id)).custody.massG).toBe('19000')
  await standsRight()
})
