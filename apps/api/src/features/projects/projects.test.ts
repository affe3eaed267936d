import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeProject } from '../../../../../tests/support/factories/design.ts'
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

const overlay = () => ({
  id: newId(),
  clientId: lab.clientId,
  name: 'Overlay 2026',
  kind: 'full',
  reportTo: 'the road owner',
  copiesTo: '',
})

test('a project gets the laboratory’s next number and knows its client', async () => {
  const first = await lab.as('manager').post(lab.path('/projects')).send(overlay()).expect(201)
  const second = await lab.as('engineer').post(lab.path('/projects')).send(overlay()).expect(201)
  expect(first.body).toMatchObject({
    code: 'P0001',
    clientName: 'Marrowdale County Roads',
    reportTo: 'the road owner',
    version: 1,
    designs: [],
  })
  expect(second.body.code).toBe('P0002')
})

test('the same request again is the same project, with the number that it has', async () => {
  const body = overlay()
  await lab.as('manager').post(lab.path('/projects')).send(body).expect(201)
  const again = await lab.as('manager').post(lab.path('/projects')).send(body).expect(200)
  expect(again.body.code).toBe('P0001')
})

test('projects made at once get numbers of their own', async () => {
  const answers = await Promise.all(
    Array.from({ length: 5 }, () => lab.as('manager').post(lab.path('/projects')).send(overlay())),
  )
  expect(answers.map(({ body }) => body.code).toSorted()).toEqual(['P0001', 'P0002', 'P0003', 'P0004', 'P0005'])
})

test('a list goes on where its page ended', async () => {
  for (const name of ['First', 'Second', 'Third']) {
    await makeProject(testApp, lab, { name })
    testApp.clock.advance({ minutes: 1 })
  }
  const { body: page } = await lab.as('technician').get(lab.path('/projects?limit=2')).expect(200)
  const { body: rest } = await lab
    .as('technician')
    .get(lab.path(`/projects?limit=2&cursor=${page.next}`))
    .expect(200)
  expect([...page.items, ...rest.items].map(({ name }) => name)).toEqual(['Third', 'Second', 'First'])
  expect(rest.next).toBeNull()
})

test('an edit starts from the version that was read', async () => {
  const project = await makeProject(testApp, lab)
  const { headers } = await lab
    .as('manager')
    .get(lab.path(`/projects/${project.id}`))
    .expect(200)
  const edit = (version: string) =>
    lab
      .as('manager')
      .patch(lab.path(`/projects/${project.id}`))
      .set('if-match', version)
  const { body } = await edit(headers.etag!).send({ reportTo: 'the contractor' }).expect(200)
  expect(body).toMatchObject({ reportTo: 'the contractor', name: project.name, version: 2 })
  const { body: problem } = await edit(headers.etag!).send({ reportTo: 'nobody' }).expect(412)
  expect(problem.stored.reportTo).toBe('the contractor')
  await lab
    .as('manager')
    .patch(lab.path(`/projects/${project.id}`))
    .send({ name: 'Other' })
    .expect(428)
})

test('two people editing at once: one gets through', async () => {
  const project = await makeProject(testApp, lab)
  const edit = (who: 'manager' | 'engineer', name: string) =>
    lab
      .as(who)
      .patch(lab.path(`/projects/${project.id}`))
      .set('if-match', '"1"')
      .send({ name })
  const answers = await Promise.all([edit('manager', 'One'), edit('engineer', 'Two')])
  expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 412])
})

test('a client who is not here is refused beside the field', async () => {
  const { body } = await lab
    .as('manager')
    .post(lab.path('/projects'))
    .send({ ...overlay(), clientId: newId() })
    .expect(400)
  expect(body.errors[0].path).toBe('clientId')
})

test('a technician makes no projects; one of another laboratory is not found', async () => {
  await lab.as('technician').post(lab.path('/projects')).send(overlay()).expect(403)
  const elsewhere = await makeLaboratory(testApp)
  const project = await makeProject(testApp, elsewhere)
  await lab
    .as('manager')
    .get(lab.path(`/projects/${project.id}`))
    .expect(404)
  await lab
    .as('client')
    .get(lab.path(`/projects/${project.id}`))
    .expect(403)
})
