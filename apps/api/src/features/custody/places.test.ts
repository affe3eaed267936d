import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
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

const store = (name = 'Cool store') => ({ id: newId(), name, kind: 'store', accessControlled: true })
const create = (body: object, person: 'manager' | 'technician' = 'manager') =>
  lab.as(person).post(lab.path('/places')).send(body)

test('places are made once and listed by name', async () => {
  const cool = store()
  await create(cool).expect(201)
  await create(cool).expect(200)
  await create(store('Aggregate store')).expect(201)
  const { body } = await lab.as('auditor').get(lab.path('/places')).expect(200)
  expect(body.items.map(({ name }: { name: string }) => name)).toEqual(['Aggregate store', 'Cool store'])
})

test('a name stands once, and the refusal says so beside it', async () => {
  await create(store()).expect(201)
  const { body } = await create(store()).expect(409)
  expect(body.errors[0]).toMatchObject({ path: 'name', message: expect.stringContaining('Cool store') })
})

test('made at once through two servers a name stands once; one place sent twice at once is one', async () => {
  const other = await testApp.startAnother()
  try {
    const there = (body: object) => lab.as('engineer', other.url).post(lab.path('/places')).send(body)
    const held = { sql: 'select from laboratory where id = $1 for update', values: [lab.labId] }
    const meet = (one: object, another: object) =>
      atOnce(
        testApp.ownerUrl,
        held,
        async () => create(one),
        async () => there(another),
      )
    expect(await meet(store(), store())).toMatchObject([
      { value: { status: 201 } },
      { value: { status: 409, body: { errors: [{ path: 'name' }] } } },
    ])
    const yard = { ...store('Yard'), kind: 'room' }
    // One press sent twice is one person's.
    expect(
      await atOnce(
        testApp.ownerUrl,
        held,
        async () => create(yard),
        async () => create(yard),
      ),
    ).toMatchObject([{ value: { status: 201 } }, { value: { status: 200 } }])
    const { body } = await lab.as('auditor').get(lab.path('/places')).expect(200)
    expect(body.items.map(({ name }: { name: string }) => name)).toEqual(['Cool store', 'Yard'])
  } finally {
    await other.close()
  }
})

test('a place outside is under nobody’s access control', async () => {
  const { body } = await create({ ...store('Site'), kind: 'outside' }).expect(400)
  expect(body.errors[0].path).toBe('accessControlled')
  await create({ ...store('Site'), kind: 'outside', accessControlled: false }).expect(201)
})

test('technicians use places, managers and engineers make them', async () => {
  await create(store(), 'technician').expect(403)
})
