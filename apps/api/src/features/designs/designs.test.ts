import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import {
  aSeries,
  makeDesign,
  makeMaterial,
  makePlannedDesign,
  makeProject,
  makeSpecification,
} from '../../../../../tests/support/factories/design.ts'
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

const path = (id: string, rest = '') => lab.path(`/designs/${id}${rest}`)
const pathsOf = (errors: { path: string }[]) => errors.map((error) => error.path)

test('a design starts as a draft of its project, with its samples and specification', async () => {
  const { id } = await makeDesign(testApp, lab)
  const { body, headers } = await lab.as('technician').get(path(id)).expect(200)
  expect(body).toMatchObject({
    kind: 'full',
    state: 'draft',
    revision: 1,
    clientName: 'Marrowdale County Roads',
    specification: { key: 'issa-a143-2010', traffic: 'heavy' },
    materials: {
      aggregate: { kind: 'aggregate' },
      emulsion: { lot: '4417' },
      filler: { kind: 'filler' },
      additive: { kind: 'additive' },
      water: { kind: 'water' },
    },
    residue: { typed: '62.6', value: '62.6', source: 'Own test' },
    moisture: { typed: '0.0', unit: '%' },
    mixes: [],
    revisions: [{ number: 1, state: 'draft' }],
    sentBack: null,
    testsTotal: 0,
  })
  expect(headers.etag).toBe(`"${body.version}"`)
  const { body: list } = await lab.as('auditor').get(lab.path('/designs')).expect(200)
  expect(list.items).toMatchObject([{ id, revision: 1, state: 'draft', testsDone: 0, testsTotal: 0 }])
})

test('the same request again is the same design; what cannot stand is refused beside its field', async () => {
  const project = await makeProject(testApp, lab)
  const [aggregate, emulsion] = [
    await makeMaterial(testApp, lab, 'aggregate'),
    await makeMaterial(testApp, lab, 'emulsion'),
  ]
  const specification = await makeSpecification(testApp, lab)
  const body = {
    id: newId(),
    revisionId: newId(),
    projectId: project.id,
    name: 'Micro',
    specificationId: specification.id,
    aggregateId: aggregate.id,
    emulsionId: emulsion.id,
    fillerId: null,
    additiveId: null,
    waterId: null,
    fractionUsed: 'passing 4.75 mm',
    scalpedPercent: '5.9',
  }
  const post = (more: object) =>
    lab
      .as('engineer')
      .post(lab.path('/designs'))
      .send({ ...body, ...more })
  await post({}).expect(201)
  await post({}).expect(200)
  await post({ name: 'Another' }).expect(409)
  const refused = await post({
    id: newId(),
    projectId: newId(),
    specificationId: newId(),
    aggregateId: emulsion.id,
    scalpedPercent: '100',
  }).expect(400)
  expect(pathsOf(refused.body.errors).toSorted()).toEqual([
    'aggregateId',
    'projectId',
    'scalpedPercent',
    'specificationId',
  ])
})

test('an edit starts from the version that was read; two at once: one gets through', async () => {
  const design = await makeDesign(testApp, lab)
  const edit = (who: 'manager' | 'engineer', name: string) =>
    lab
      .as(who)
      .patch(path(design.id))
      .set('if-match', `"${design.version}"`)
      .send({ name, fractionUsed: 'passing 4.75 mm' })
  const answers = await Promise.all([edit('manager', 'One'), edit('engineer', 'Two')])
  expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 412])
  const winner = answers.find(({ status }) => status === 200)!.body
  expect((await lab.as('engineer').get(path(design.id))).body).toMatchObject({
    name: winner.name,
    fractionUsed: 'passing 4.75 mm',
    version: design.version + 1,
  })
})

test('samples change until specimens are planned from them', async () => {
  const { design } = await makePlannedDesign(testApp, lab)
  const other = await makeMaterial(testApp, lab, 'aggregate')
  const edit = (body: object) =>
    lab.as('engineer').patch(path(design.id)).set('if-match', `"${design.version}"`).send(body)
  const { body } = await edit({ aggregateId: other.id }).expect(422)
  expect(pathsOf(body.errors)).toEqual(['aggregateId'])
  await edit({ aggregateId: design.materials.aggregate.id, scalpedPercent: '5.9' }).expect(200)
})

test('a batch sheet takes the moisture off the added water and gives the residual binder on each basis', async () => {
  const { design } = await makePlannedDesign(
    testApp,
    lab,
    aSeries({
      methods: [
        { methodKey: 'wet-track-abrasion-1h', replicates: 1, spares: [] },
        { methodKey: 'loaded-wheel-sand-adhesion', replicates: 1, spares: [] },
      ],
    }),
    { moisture: '3.1' },
  )
  const { body } = await lab.as('technician').get(path(design.id, '/batch-sheets')).expect(200)
  const disc = body.items.find(({ form }: { form: string }) => form === 'disc')
  const grams = Object.fromEntries(
    disc.rows.map(({ component, targetG }: { component: string; targetG: string }) => [component, targetG]),
  )
  expect(grams).toEqual({ aggregate: '824.8', filler: '8', water: '55.2', additive: '1.6', emulsion: '96' })
  expect(disc).toMatchObject({
    methodKey: 'wet-track-abrasion-1h',
    dryAggregateG: '800',
    moisturePercent: '3.1',
    fractionUsed: 'passing 4.75 mm',
    refusal: null,
  })
  expect(disc.residual[0]).toEqual({ basis: '% of dry aggregate', percent: '7.512' })
  expect(body.items.find(({ form }: { form: string }) => form === 'strip')).toMatchObject({
    dryAggregateG: '300',
    fractionUsed: 'whole grading',
  })
})

test('without the moisture a sheet says what is missing; with it the targets are kept', async () => {
  const { design } = await makePlannedDesign(testApp, lab, aSeries(), { moisture: null })
  const sheets = async () => (await lab.as('technician').get(path(design.id, '/batch-sheets')).expect(200)).body.items
  const kept = () =>
    testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
      prisma.mixComponent.findMany({ where: { mixId: design.mixes[0]!.id }, orderBy: { kind: 'asc' } }),
    )
  expect(await sheets()).toMatchObject([{ rows: [], refusal: expect.stringContaining('moisture') }])
  expect(await kept()).toEqual([])
  await lab
    .as('technician')
    .post(path(design.id, '/entered-results'))
    .send({
      id: newId(),
      key: 'aggregate-moisture',
      typed: '0,0 %',
      unit: '%',
      source: 'Own test',
      observedOn: '2026-03-02',
    })
    .expect(201)
  expect(await sheets()).toMatchObject([{ refusal: null }])
  expect((await kept()).map(({ kind, targetG }) => `${kind} ${targetG.toFixed()}`)).toEqual([
    'additive 1.6',
    'aggregate 800',
    'emulsion 96',
    'filler 8',
    'water 80',
  ])
})

test('a technician drafts no design; one of another laboratory is not found', async () => {
  await lab.as('technician').post(lab.path('/designs')).send({}).expect(403)
  const elsewhere = await makeLaboratory(testApp)
  const theirs = await makeDesign(testApp, elsewhere)
  for (const rest of ['', '/specimens', '/batch-sheets']) await lab.as('manager').get(path(theirs.id, rest)).expect(404)
  await lab.as('engineer').patch(path(theirs.id)).set('if-match', '"1"').send({ name: 'Mine' }).expect(404)
  await lab.as('client').get(path(theirs.id)).expect(403)
})
