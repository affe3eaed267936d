import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { canonicalJson, digestOf } from '#platform/canonical-json'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeSpecification } from '../../../../../tests/support/factories/design.ts'
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

const adoption = (more: Record<string, unknown> = {}) => ({
  id: newId(),
  builtInKey: 'issa-a143-2010',
  name: 'Contract 12',
  aggregateType: 'Type II',
  traffic: 'heavy',
  changes: [],
  ...more,
})
const post = (body: object) => lab.as('engineer').post(lab.path('/specifications')).send(body)

test('guideline values are offered by type and traffic, each limit with its source', async () => {
  const { body } = await lab.as('technician').get(lab.path('/specifications/built-in')).expect(200)
  const micro = body.items.find(({ key }: { key: string }) => key === 'issa-a143-2010')
  const light = micro.variants.find(
    (variant: { aggregateType: string; traffic: string }) =>
      variant.aggregateType === 'Type III' && variant.traffic === 'light',
  )
  const adhesion = light.limits.find(({ key }: { key: string }) => key === 'sand-adhesion')
  expect(adhesion).toMatchObject({
    value: '753',
    unit: 'g/m²',
    usValue: '70',
    usUnit: 'g/ft²',
    certainty: 'from memory',
    source: expect.stringContaining('A143'),
  })
})

test('an adopted copy holds the contract’s change with the built-in value beside it', async () => {
  const { body } = await post(
    adoption({ changes: [{ limitKey: 'abrasion-loss-6-day', value: '650', reason: 'Contract 12, clause 4' }] }),
  ).expect(201)
  expect(body).toMatchObject({
    key: 'issa-a143-2010',
    revision: 1,
    name: 'Contract 12',
    decisionRule: 'simple acceptance',
    comparison: expect.stringContaining('unrounded'),
  })
  const limit = (key: string) => body.limits.find((candidate: { key: string }) => candidate.key === key)
  expect(limit('abrasion-loss-6-day')).toMatchObject({
    value: '650',
    source: 'Contract 12, clause 4',
    certainty: 'by contract',
    changedFrom: { value: '807', unit: 'g/m²' },
  })
  expect(limit('abrasion-loss-1-hour')).toMatchObject({ value: '538', changedFrom: null, certainty: 'from memory' })
})

test('the copy is stored as canonical text under a digest', async () => {
  const { body } = await post(adoption()).expect(201)
  const row = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
    prisma.specification.findFirstOrThrow({ where: { id: body.id } }),
  )
  const limits = JSON.parse(row.limits)
  expect(row.limits).toBe(canonicalJson(limits))
  expect(Buffer.from(row.dig)).toEqual(digestOf({ key: row.key, revision: '1', name: row.name, limits }))
})

test('what cannot stand is refused beside its field', async () => {
  const change = (more: object) => ({ limitKey: 'sand-adhesion', value: '500', reason: 'Contract 12', ...more })
  const paths = async (body: object) =>
    (await post(body).expect(400)).body.errors.map(({ path }: { path: string }) => path)
  expect(await paths(adoption({ builtInKey: 'nothing' }))).toEqual(['builtInKey'])
  expect(await paths(adoption({ aggregateType: 'Type I' }))).toEqual(['aggregateType'])
  expect(await paths(adoption({ changes: [change({ limitKey: 'nothing' })] }))).toEqual(['changes.0.limitKey'])
  expect(await paths(adoption({ changes: [change({ unit: 's' })] }))).toEqual(['changes.0.unit'])
  expect(await paths(adoption({ changes: [change({ reason: ' ' })] }))).toEqual(['changes.0.reason'])
  expect(await paths(adoption({ residualBand: { from: '9', to: '8', reason: 'Contract 12' } }))).toEqual([
    'residualBand',
  ])
})

test('adoptions made at once are revisions of their own; the same one again is one', async () => {
  const bodies = [adoption(), adoption(), adoption()]
  const answers = await Promise.all([...bodies, bodies[0]!].map((body) => post(body)))
  expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 201, 201, 201])
  const { body } = await lab.as('manager').get(lab.path('/specifications')).expect(200)
  expect(body.items.map(({ revision }: { revision: number }) => revision).toSorted()).toEqual([1, 2, 3])
})

test('a technician adopts nothing; a specification of another laboratory is not seen', async () => {
  await lab.as('technician').post(lab.path('/specifications')).send(adoption()).expect(403)
  const elsewhere = await makeLaboratory(testApp)
  await makeSpecification(testApp, elsewhere)
  expect((await lab.as('manager').get(lab.path('/specifications')).expect(200)).body.items).toEqual([])
  await lab.as('manager').get(elsewhere.path('/specifications/built-in')).expect(404)
})
