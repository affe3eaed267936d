import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp()
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const trust = () => ({ id: newId(), name: 'Lowmoor Parish', contact: 'the clerk', address: '' })

test('a client is entered once and listed by name', async () => {
  const body = trust()
  await lab.as('manager').post(lab.path('/clients')).send(body).expect(201, body)
  const { body: list } = await lab.as('technician').get(lab.path('/clients')).expect(200)
  expect(list.items.map(({ name }: { name: string }) => name)).toEqual([
    'Lowmoor Parish',
    'Marrowdale County Roads',
    'Pellworth Airfield Trust',
  ])
})

test('the same request again is the same client; another one under its id is a conflict with both', async () => {
  const body = trust()
  await lab.as('manager').post(lab.path('/clients')).send(body).expect(201)
  await lab.as('manager').post(lab.path('/clients')).send(body).expect(200, body)
  const { body: problem } = await lab
    .as('manager')
    .post(lab.path('/clients'))
    .send({ ...body, name: 'Another' })
    .expect(409)
  expect([problem.stored.name, problem.sent.name]).toEqual(['Lowmoor Parish', 'Another'])
})

test('a name that is taken is said beside the field', async () => {
  const { body } = await lab
    .as('manager')
    .post(lab.path('/clients'))
    .send({ ...trust(), name: 'Marrowdale County Roads' })
    .expect(409)
  expect(body.errors[0].path).toBe('name')
})

test('two people entering one name at once: one client stands', async () => {
  const answers = await Promise.all(
    [lab.as('manager'), lab.as('engineer')].map((agent) => agent.post(lab.path('/clients')).send(trust())),
  )
  expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409])
})

test('an empty name is refused beside the field', async () => {
  const { body } = await lab
    .as('manager')
    .post(lab.path('/clients'))
    .send({ ...trust(), name: ' ' })
    .expect(400)
  expect(body.errors).toEqual([{ path: 'name', message: 'Enter the client’s name' }])
})

test('a technician enters no clients, and nobody reaches another laboratory', async () => {
  await lab.as('technician').post(lab.path('/clients')).send(trust()).expect(403)
  const elsewhere = await makeLaboratory(testApp)
  await lab.as('manager').get(elsewhere.path('/clients')).expect(404)
})
