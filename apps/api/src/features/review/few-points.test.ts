import { builtInMethods } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { stirring } from '../../../../../tests/support/factories/panel-method.ts'
import { weighBatches } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

const three = { value: '3', unit: 'count', label: 'Tests', source: 'Invented', certainty: 'common practice' } as const
const thrice: MethodDeclaration = {
  ...stirring,
  key: 'made-up-thrice',
  name: 'Made-up stirring, three times',
  editions: stirring.editions.map((edition) => ({
    ...edition,
    parameters: { ...edition.parameters, replicates: three },
  })),
}

let testApp: TestApp
let lab: TestLaboratory
let designId: string
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z', methods: [thrice, ...builtInMethods] })
  lab = await makeLaboratory(testApp)
  designId = (await makeDesign(testApp, lab)).id
})
afterAll(() => testApp.close())

const get = async (path: string) =>
  (
    await lab
      .as('engineer')
      .get(lab.path(`/designs/${designId}/${path}`))
      .expect(200)
  ).body
const counts = async () => (await get('panel-tests')).counts
const few = async () => (await get('review')).points.filter(({ kind }: { kind: string }) => kind === 'few-replicates')

it('fewer tests than the edition asks for are told on the Tests page and in the review, with what is void, and block nothing', async () => {
  const { body } = await lab
    .as('engineer')
    .post(lab.path(`/designs/${designId}/plan`))
    .set('idempotency-key', newId())
    .send({
      contents: [{ emulsionPercent: '12', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
      methods: [{ methodKey: thrice.key, replicates: 3, spares: [] }],
    })
    .expect(200)
  const [first, second, third] = body.items as { testId: string }[]
  await weighBatches(testApp, lab, body.items)
  const about = { methodKey: thrice.key, emulsionPercent: '12', asked: 3 }
  expect(await counts()).toMatchObject([{ ...about, counted: 0, open: 3, voided: 0 }])
  for (const { testId } of [first!, second!])
    await testApp.services.bench.readings.post(
      lab.people.technician.actor,
      testId,
      aReading(testApp, 'stir', 'seconds', '171'),
    )
  expect(await few()).toEqual([])
  await testApp.services.bench.ending.void(lab.people.engineer.actor, third!.testId, {
    id: newId(),
    reason: 'Spilled',
    time: timeNow(testApp),
  })
  expect(await counts()).toMatchObject([{ ...about, counted: 2, open: 0, voided: 1 }])
  expect(await few()).toMatchObject([
    {
      sentence: 'Made-up stirring, three times at 12 % emulsion: n = 2 of 3 asked for; 1 is void.',
      blocking: false,
      acknowledged: null,
    },
  ])
  const mixTime = ({ key }: { key: string }) => key === 'mix-time'
  expect((await get('range')).panel.find(mixTime)).toMatchObject({ n: 2, asked: 3 })
})
