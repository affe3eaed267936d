import type { SpecimenRow } from '@curebook/contract/designs'
import { isCode } from '@curebook/trade/design/specimen-code'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aSeries, makeDesign, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
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

const one = 'wet-track-abrasion-1h'
const method = (methodKey: string, replicates: number, spares: { emulsionPercent: string; count: number }[] = []) => ({
  methodKey,
  replicates,
  spares,
})
const plan = (id: string, body: object, key = newId(), url?: string) =>
  lab
    .as('engineer', url)
    .post(lab.path(`/designs/${id}/plan`))
    .set('idempotency-key', key)
    .send(body)
const specimens = async (id: string): Promise<SpecimenRow[]> =>
  (
    await lab
      .as('technician')
      .get(lab.path(`/designs/${id}/specimens`))
      .expect(200)
  ).body.items
const setState = (revisionId: string, state: string) =>
  testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
    prisma.designRevision.updateMany({ where: { labId: lab.labId, id: revisionId }, data: { state } }),
  )

test('a plan makes a batch and a specimen with its code and test for each replicate of each content', async () => {
  const { id } = await makeDesign(testApp, lab)
  const series = aSeries({
    contents: ['10', '12'],
    methods: [method(one, 2, [{ emulsionPercent: '12', count: 1 }]), method('loaded-wheel-sand-adhesion', 1)],
  })
  const { body } = await plan(id, series).expect(200)
  expect(body.items).toEqual(await specimens(id))
  const rows = body.items as SpecimenRow[]
  expect(rows.map(({ label, form, purpose, state }) => `${label} ${form} ${purpose} ${state}`)).toEqual([
    '10-1 strip series waiting',
    '10-1 disc series waiting',
    '10-2 disc series waiting',
    '12-1 strip series waiting',
    '12-1 disc series waiting',
    '12-2 disc series waiting',
    '12-3 disc spare waiting',
  ])
  expect(new Set(rows.map(({ code }) => code)).size).toBe(7)
  expect(rows.every(({ code }) => isCode(code))).toBe(true)
  expect(rows.every(({ stepTitle }) => stepTitle === 'Weigh the components')).toBe(true)
  const { body: design } = await lab
    .as('engineer')
    .get(lab.path(`/designs/${id}`))
    .expect(200)
  expect(design).toMatchObject({
    state: 'in-work',
    testsDone: 0,
    testsTotal: 6,
    mixes: [
      { ordinal: 1, emulsionPercent: '10' },
      { ordinal: 2, emulsionPercent: '12' },
    ],
  })
})

test('a specimen comes from its batch, and the batch from the samples; both tests are pinned', async () => {
  const {
    design,
    specimens: [row],
  } = await makePlannedDesign(testApp, lab)
  const { parents, tests, dues } = await testApp.services.laboratory.inLaboratory(
    lab.people.engineer.actor,
    async ({ prisma }) => ({
      parents: await prisma.itemParent.findMany({ include: { child: true, parent: true } }),
      tests: await prisma.testEvent.findMany({ include: { edition: true, testNow: true } }),
      dues: await prisma.due.findMany(),
    }),
  )
  const parentsOf = (code: string) =>
    parents
      .filter(({ child }) => child.code === code)
      .map(({ parent }) => parent.code)
      .toSorted()
  expect(parentsOf(row!.code)).toEqual([`${row!.code}.B`])
  expect(parentsOf(`${row!.code}.B`)).toEqual(
    Object.values(design.materials)
      .map((material) => material!.code)
      .toSorted(),
  )
  expect(
    tests.map(({ id, methodKey, computation, edition, testNow }) => ({
      id,
      methodKey,
      computation,
      edition: edition.methodKey,
      steps: testNow!.stepsTotal,
      next: testNow!.stepKey,
    })),
  ).toEqual(
    expect.arrayContaining([
      { id: row!.testId, methodKey: one, computation: 1, edition: one, steps: 9, next: 'cast' },
      {
        id: row!.batchTestId,
        methodKey: 'batch',
        computation: 1,
        edition: 'batch',
        steps: 2,
        next: 'weigh-components',
      },
    ]),
  )
  expect(dues.map(({ testId, stepKey, act }) => ({ testId, stepKey, act }))).toEqual(
    expect.arrayContaining([
      { testId: row!.testId, stepKey: 'cast', act: 'start' },
      { testId: row!.batchTestId, stepKey: 'weigh-components', act: 'reading' },
    ]),
  )
})

test('the same plan sent twice under one key, at once and through two servers, is planned once', async () => {
  const { id } = await makeDesign(testApp, lab)
  const other = await testApp.startAnother()
  try {
    const key = newId()
    const answers = await Promise.all([plan(id, aSeries(), key), plan(id, aSeries(), key, other.url)])
    expect(answers.map(({ status }) => status)).toEqual([200, 200])
    expect(answers[0]!.body).toEqual(answers[1]!.body)
    expect(await specimens(id)).toHaveLength(1)
    await plan(id, aSeries({ contents: ['13'] }), key).expect(409)
  } finally {
    await other.close()
  }
})

test('two plans at once follow one another: no code and no replicate stands twice', async () => {
  const { id } = await makeDesign(testApp, lab)
  const other = await testApp.startAnother()
  try {
    const series = aSeries({ methods: [method(one, 3)] })
    await Promise.all([plan(id, series).expect(200), plan(id, series, newId(), other.url).expect(200)])
    const rows = await specimens(id)
    expect(rows.map(({ label }) => label)).toEqual(['12-1', '12-2', '12-3', '12-4', '12-5', '12-6'])
    expect(new Set(rows.map(({ code }) => code)).size).toBe(6)
  } finally {
    await other.close()
  }
})

test('tests made after a new edition are pinned to it, earlier ones keep theirs', async () => {
  const { design } = await makePlannedDesign(testApp, lab)
  const { body: abrasion } = await lab
    .as('manager')
    .get(lab.path(`/methods/${one}`))
    .expect(200)
  const { body: edition } = await lab
    .as('manager')
    .post(lab.path(`/methods/${one}/editions`))
    .send({
      id: newId(),
      copiedFrom: abrasion.editions[0].id,
      changes: [{ parameter: 'soak-latest', value: '70', source: 'Own validation 7', certainty: 'common practice' }],
      effectiveFrom: '2026-03-02',
      reason: 'Tighter',
    })
    .expect(201)
  await plan(design.id, aSeries()).expect(200)
  const pinned = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
    prisma.testEvent.findMany({ where: { methodKey: one }, orderBy: { replicate: 'asc' } }),
  )
  expect(pinned.map(({ label, editionId }) => [label, editionId])).toEqual([
    ['12-1', abrasion.editions[0].id],
    ['12-2', edition.id],
  ])
})

test('every fault of a plan is said beside its field', async () => {
  const { id } = await makeDesign(testApp, lab)
  const series = aSeries({
    contents: ['12', '12.0', '40'],
    methods: [method('batch', 1), method(one, 1, [{ emulsionPercent: '11', count: 1 }])],
  })
  const { body } = await plan(id, series).expect(400)
  expect(body.errors.map(({ path }: { path: string }) => path)).toEqual([
    'contents.1.emulsionPercent',
    'contents.2.emulsionPercent',
    'methods.1.spares.0.emulsionPercent',
    'methods.0.methodKey',
  ])
  expect(await specimens(id)).toEqual([])
  await lab
    .as('engineer')
    .post(lab.path(`/designs/${id}/plan`))
    .send(aSeries())
    .expect(400)
})

test('a verification is planned at one content', async () => {
  const { id } = await makeDesign(testApp, lab, { kind: 'verification' })
  await plan(id, aSeries({ contents: ['11', '12'] })).expect(400)
  await plan(id, aSeries()).expect(200)
  await plan(id, aSeries({ contents: ['13'] })).expect(400)
})

test('a revision in review or approved is not extended; a technician plans nothing', async () => {
  const { id, revisionId } = await makeDesign(testApp, lab)
  await lab
    .as('technician')
    .post(lab.path(`/designs/${id}/plan`))
    .set('idempotency-key', newId())
    .send(aSeries())
    .expect(403)
  for (const state of ['in-review', 'approved']) {
    await setState(revisionId, state)
    await plan(id, aSeries()).expect(409)
  }
})

test('a new revision starts from an approved one, with its mixes, and counts the tests made before', async () => {
  const { design } = await makePlannedDesign(testApp, lab, aSeries({ methods: [method(one, 2)] }))
  const start = (body: object) =>
    lab
      .as('engineer')
      .post(lab.path(`/designs/${design.id}/revisions`))
      .send(body)
  const body = { id: newId(), reason: 'The road owner asks for 13 %' }
  await start(body).expect(409)
  await setState(design.revisionId, 'approved')
  const answers = await Promise.all([start(body), start({ ...body, id: newId() })])
  expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409])
  const { body: second } = await lab
    .as('engineer')
    .get(lab.path(`/designs/${design.id}`))
    .expect(200)
  expect(second).toMatchObject({
    revision: 2,
    state: 'in-work',
    testsTotal: 2,
    mixes: [{ emulsionPercent: '12' }],
    residue: { id: design.residue!.id },
  })
  expect(second.mixes[0].id).not.toBe(design.mixes[0]!.id)
  const { body: added } = await plan(design.id, aSeries({ contents: ['12', '13'] })).expect(200)
  expect(added.items.map(({ label }: SpecimenRow) => label)).toEqual(['12-3', '13-1'])
  expect(await specimens(design.id)).toHaveLength(4)
  const earlier = await lab
    .as('auditor')
    .get(lab.path(`/designs/${design.id}?revision=1`))
    .expect(200)
  expect(earlier.body).toMatchObject({ revision: 1, state: 'approved', testsTotal: 2 })
  expect((await lab.as('auditor').get(lab.path(`/designs/${design.id}/specimens?revision=1`))).body.items).toHaveLength(
    2,
  )
  const entered = await lab
    .as('engineer')
    .post(lab.path(`/designs/${design.id}/entered-results`))
    .send({
      id: newId(),
      key: 'residue',
      typed: '62.9',
      unit: '%',
      source: 'Certificate 4418',
      observedOn: '2026-03-02',
      supersedes: { id: design.residue!.id, reason: 'New load' },
    })
    .expect(201)
  expect((await lab.as('engineer').get(lab.path(`/designs/${design.id}?revision=1`))).body.residue.id).toBe(
    design.residue!.id,
  )
  expect((await lab.as('engineer').get(lab.path(`/designs/${design.id}`))).body.residue.id).toBe(entered.body.id)
})
