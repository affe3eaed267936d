import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeMaterial } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T09:10:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const emulsion = (receipt: object, changes: object = {}) => ({
  id: newId(),
  kind: 'emulsion',
  name: 'Quick-set polymer-modified emulsion',
  sourceName: 'Ansel Binders',
  lot: '4417',
  receivedOn: '2026-03-02',
  receipt,
  ...changes,
})
const receive = (body: object) => lab.as('technician').post(lab.path('/materials')).send(body)
const read = async (id: string) =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/items/${id}`))
      .expect(200)
  ).body
const refusal = async (receipt: object, changes: object = {}) =>
  (await receive(emulsion(receipt, changes)).expect(400)).body.errors[0] as { path: string; message: string }

test('what arrived is kept as typed: containers, temperature, condition, seal, sampling, sheet and age', async () => {
  const store = newId()
  await lab
    .as('manager')
    .post(lab.path('/places'))
    .send({ id: store, name: 'Cool store', kind: 'store', accessControlled: true })
    .expect(201)
  const body = emulsion({
    containerKind: 'jerrycan',
    containers: ['5,0 L', '5 litres'],
    temperature: '27',
    condition: 'good',
    sealIntact: true,
    sampledBy: 'Plant foreman',
    sampledWhere: 'Loading line of tank 3',
    sampledHow: 'From the middle of the load',
    safetySheet: 'on-file',
    safetySheetName: 'SDS 17, 2024',
    madeOn: '2026-02-27',
    placeId: store,
  })
  await receive(body).expect(201)
  await receive(body).expect(200)
  const item = await read(body.id)
  expect(item.receipt).toEqual({
    containerKind: 'jerrycan',
    containerCount: 2,
    containers: [
      { typed: '5,0 L', amount: '5', unit: 'L' },
      { typed: '5 litres', amount: '5', unit: 'L' },
    ],
    sampledBy: 'Plant foreman',
    sampledWhere: 'Loading line of tank 3',
    sampledHow: 'From the middle of the load',
    safetySheet: 'on-file',
    safetySheetName: 'SDS 17, 2024',
    emulsionAge: { madeOn: '2026-02-27', days: 3, retestFromDay: 14, source: 'common practice, no source' },
  })
  expect(item.life).toMatchObject([
    {
      kind: 'received',
      temperature: '27',
      condition: 'good',
      sealIntact: true,
      to: { kind: 'place', name: 'Cool store' },
    },
  ])
  expect(item.custody).toMatchObject({ status: 'with', custodian: { name: 'Cool store' }, massG: null })
})

test('masses of all containers make the mass of the sample, from which it is split', async () => {
  const body = emulsion(
    { containerKind: 'bag', containerCount: 3, containers: ['24.8 kg', '25.3 kg', '24100 g'] },
    { kind: 'aggregate' },
  )
  await receive(body).expect(201)
  const { custody, life } = await read(body.id)
  expect(custody).toMatchObject({ massG: '74200', custodian: { kind: 'person' } })
  expect(life[0].massG).toBe('74200')
})

test('a sample without a receipt is received as before', async () => {
  const { id } = await makeMaterial(testApp, lab, 'filler')
  expect(await read(id)).toMatchObject({ receipt: null, custody: { status: 'with', massG: null } })
})

test('what cannot be is refused beside its field, and nothing is stored', async () => {
  expect((await refusal({ containers: ['5 L', '5'] })).path).toBe('receipt.containers.1')
  const { body: several } = await receive(
    emulsion({ containers: ['5', '5 L', 'full'], temperature: 'warm' }, { name: '' }),
  ).expect(400)
  expect(several.errors.map(({ path }: { path: string }) => path).toSorted()).toEqual([
    'name',
    'receipt.containers.0',
    'receipt.containers.2',
    'receipt.temperature',
  ])
  expect(await refusal({ containerCount: 3, containers: ['5 L'] })).toMatchObject({
    path: 'receipt.containerCount',
    message: '3 counted, but 1 with an amount: give one amount for each, or none.',
  })
  expect((await refusal({ temperature: 'warm' })).path).toBe('receipt.temperature')
  expect((await refusal({ madeOn: '2026-03-03' })).path).toBe('receipt.madeOn')
  expect((await refusal({ madeOn: '2026-02-27' }, { kind: 'filler' })).message).toContain('emulsion only')
  expect((await refusal({ placeId: newId() })).path).toBe('receipt.placeId')
  const yard = { id: newId(), name: 'Yard', kind: 'outside', accessControlled: false }
  await lab.as('manager').post(lab.path('/places')).send(yard).expect(201)
  expect(await refusal({ placeId: yard.id })).toMatchObject({
    path: 'receipt.placeId',
    message: expect.stringContaining('Anybody can enter Yard'),
  })
  const { body } = await lab.as('manager').get(lab.path('/materials')).expect(200)
  expect(body.items).toEqual([])
})
