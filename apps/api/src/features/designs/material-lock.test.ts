import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeDesign, makeMaterial } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { ofMaterials } from '../../../../../tests/support/factories/panel-method.ts'

vi.setConfig({ testTimeout: 120_000 })

/** Taken apart like a sample of the road, and made here of the materials all the same. */
const looseMix: MethodDeclaration = { ...ofMaterials, key: 'made-up-loose', form: 'loose' }

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z', methods: [ofMaterials, looseMix, ...builtInMethods] })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const plan = (
  designId: string,
  methodKey: string,
  { replicates = 1, url }: { replicates?: number; url?: string } = {},
) =>
  lab
    .as('engineer', url)
    .post(lab.path(`/designs/${designId}/material-tests`))
    .set('idempotency-key', newId())
    .send({ methodKey, replicates })
const change = (designId: string, version: number, body: object) =>
  lab
    .as('engineer')
    .patch(lab.path(`/designs/${designId}`))
    .set('if-match', `"${version}"`)
    .send(body)
const read = async (designId: string) =>
  (
    await lab
      .as('engineer')
      .get(lab.path(`/designs/${designId}`))
      .expect(200)
  ).body
const rows = <T>(
  ask: (
    prisma: Parameters<Parameters<TestApp['services']['laboratory']['inLaboratory']>[1]>[0]['prisma'],
  ) => Promise<T>,
) => testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) => ask(prisma))
const parentsOf = async (itemId: string) =>
  (await rows((prisma) => prisma.itemParent.findMany({ where: { childId: itemId } }))).map(({ parentId }) => parentId)

test('what a test of the materials is made of stands: the design is in work and takes no other sample', async () => {
  const design = await makeDesign(testApp, lab)
  const other = await makeMaterial(testApp, lab, 'emulsion')
  const { body } = await plan(design.id, 'classification-compatibility').expect(200)
  const planned = await read(design.id)
  expect(planned.state).toBe('in-work')
  const refused = await change(design.id, planned.version, { emulsionId: other.id }).expect(422)
  expect(refused.body.errors).toEqual([
    {
      path: 'emulsionId',
      message: 'Specimens are planned from this sample. Start another design for another material.',
    },
  ])
  await change(design.id, planned.version, { name: 'Named anew' }).expect(200)
  expect(await parentsOf(body.items[0].itemId)).toContain(design.materials.emulsion.id)
})

test('a plan and another emulsion at once: the test is made of what the design says afterwards', async () => {
  const other = await testApp.startAnother()
  try {
    const design = await makeDesign(testApp, lab)
    const emulsion = await makeMaterial(testApp, lab, 'emulsion')
    const [planned, changed] = await Promise.all([
      plan(design.id, ofMaterials.key, { url: other.url }),
      change(design.id, design.version, { emulsionId: emulsion.id }),
    ])
    expect(planned.status).toBe(200)
    expect([200, 412, 422]).toContain(changed.status)
    const after = await read(design.id)
    expect(after.materials.emulsion.id).toBe(changed.status === 200 ? emulsion.id : design.materials.emulsion.id)
    expect(await parentsOf(planned.body.items[0].itemId)).toContain(after.materials.emulsion.id)
  } finally {
    await other.close()
  }
})

test('a sample of the road is made of none of them, whatever else is taken apart', async () => {
  const design = await makeDesign(testApp, lab)
  const { body: loose } = await plan(design.id, looseMix.key).expect(200)
  expect((await parentsOf(loose.items[0].itemId)).length).toBe(5)
  for (const key of ['binder-ignition', 'binder-extraction']) {
    const { body } = await plan(design.id, key).expect(200)
    expect(await parentsOf(body.items[0].itemId)).toEqual([])
  }
})

test('it is not planned of materials that are not chosen; a sample of the road needs none', async () => {
  const design = await makeDesign(testApp, lab)
  await rows((prisma) =>
    prisma.designRevision.updateMany({ where: { id: design.revisionId }, data: { emulsionItemId: null } }),
  )
  const { body } = await plan(design.id, ofMaterials.key).expect(400)
  expect(body.errors).toMatchObject([{ path: 'methodKey', message: expect.stringContaining('no emulsion is chosen') }])
  await plan(design.id, 'binder-ignition').expect(200)
})

test('how many are planned is told over all plans', async () => {
  const design = await makeDesign(testApp, lab)
  await plan(design.id, ofMaterials.key, { replicates: 2 }).expect(200)
  await plan(design.id, ofMaterials.key).expect(200)
  const methods = await rows((prisma) =>
    prisma.designMethod.findMany({ where: { designRevisionId: design.revisionId } }),
  )
  expect(methods).toMatchObject([{ methodKey: ofMaterials.key, replicates: 3 }])
})

test('what was made of a sample names the tests of the materials too', async () => {
  const design = await makeDesign(testApp, lab)
  const { body } = await plan(design.id, ofMaterials.key, { replicates: 2 }).expect(200)
  const { body: emulsion } = await lab
    .as('technician')
    .get(lab.path(`/items/${design.materials.emulsion.id}`))
    .expect(200)
  const codes = body.items.map(({ code }: { code: string }) => code).toSorted()
  expect(emulsion.specimens).toEqual([
    { designId: design.id, designName: design.name, mixId: null, emulsionPercent: null, form: 'pill', count: 2, codes },
  ])
})
