import type { BatchSheet, SpecimenRow } from '@curebook/contract/designs'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { stirring } from '../../../../../tests/support/factories/panel-method.ts'
import { weighBatches } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z', methods: [stirring, ...builtInMethods] })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const plan = async (designId: string, emulsionPercent: string): Promise<SpecimenRow[]> => {
  testApp.clock.advance({ minutes: 5 })
  const body = {
    contents: [{ emulsionPercent, waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
    methods: [{ methodKey: stirring.key, replicates: 1, spares: [] }],
  }
  const planned = await lab
    .as('engineer')
    .post(lab.path(`/designs/${designId}/plan`))
    .set('idempotency-key', newId())
    .send(body)
    .expect(200)
  return planned.body.items
}
const sheets = async (designId: string, query = '') => {
  const { body } = await lab
    .as('technician')
    .get(lab.path(`/designs/${designId}/batch-sheets${query}`))
    .expect(200)
  return body.items.map(({ emulsionPercent, dryAggregateG }: BatchSheet) => `${emulsionPercent} %: ${dryAggregateG} g`)
}
/** Target of the aggregate, g, as the bench shows it with a specimen's batch. */
const targetOf = async ({ batchTestId }: SpecimenRow) =>
  (await testApp.services.bench.view.one(lab.people.technician.actor, batchTestId)).targets.aggregate
/** From now on a cup takes 200 g instead of 100 g. */
async function adoptLargerPortion() {
  const { body } = await lab
    .as('manager')
    .get(lab.path(`/methods/${stirring.key}`))
    .expect(200)
  await lab
    .as('manager')
    .post(lab.path(`/methods/${stirring.key}/editions`))
    .send({
      id: newId(),
      copiedFrom: body.editions[0].id,
      changes: [{ parameter: 'portion', value: '200', source: 'Own validation 3', certainty: 'common practice' }],
      effectiveFrom: '2026-03-02',
      reason: 'Larger cup',
    })
    .expect(201)
}

test('each batch follows the edition that its test was planned under, weighed or not', async () => {
  const { id } = await makeDesign(testApp, lab)
  const [first] = await plan(id, '12')
  await adoptLargerPortion()
  const [second] = await plan(id, '12')
  await plan(id, '14')
  // Both portions of the content have their sheet, each for its own specimens.
  expect(await sheets(id)).toEqual(['12 %: 100 g', '12 %: 200 g', '14 %: 200 g'])
  const { body } = await lab.as('technician').get(lab.path(`/designs/${id}/batch-sheets`))
  expect(body.items.map(({ testIds }: BatchSheet) => testIds).slice(0, 2)).toEqual([[first!.testId], [second!.testId]])
  expect([await targetOf(first!), await targetOf(second!)]).toEqual(['100', '200'])
  const { specimen } = await testApp.services.bench.view.one(lab.people.technician.actor, second!.batchTestId)
  // What comes after the batch is no batch: the bench says what is made of it.
  expect(specimen).toMatchObject({ methodKey: stirring.key, beside: true, nextStep: 'Stir' })

  testApp.clock.advance({ minutes: 5 })
  await weighBatches(testApp, lab, [first!, second!])
  const [third] = await plan(id, '12')
  // What was weighed keeps the targets that it was weighed to.
  expect([await targetOf(first!), await targetOf(second!), await targetOf(third!)]).toEqual(['100', '200', '200'])
  expect(await sheets(id)).toEqual(['12 %: 100 g', '12 %: 200 g', '14 %: 200 g'])
  await testApp.services.bench.ending.void(lab.people.engineer.actor, first!.testId, {
    id: newId(),
    reason: 'Spilled',
    time: timeNow(testApp),
  })
  expect(await sheets(id)).toEqual(['12 %: 200 g', '14 %: 200 g'])
})

test('a later revision has the sheets of what was made in those before it; the approved one keeps its own', async () => {
  const { id, revisionId } = await makeDesign(testApp, lab)
  await plan(id, '12')
  await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
    prisma.designRevision.updateMany({ where: { labId: lab.labId, id: revisionId }, data: { state: 'approved' } }),
  )
  await testApp.services.designs.startRevision(lab.people.engineer.actor, id, { id: newId(), reason: 'Other additive' })
  await adoptLargerPortion()
  expect(await sheets(id)).toEqual(['12 %: 100 g'])
  await plan(id, '12')
  expect(await sheets(id)).toEqual(['12 %: 200 g'])
  expect(await sheets(id, '?revision=1')).toEqual(['12 %: 100 g'])
})
