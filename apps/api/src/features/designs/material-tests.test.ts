import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'
import { ofMaterials, stirring } from '../../../../../tests/support/factories/panel-method.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
let lab: TestLaboratory
let designId: string
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z', methods: [ofMaterials, stirring, ...builtInMethods] })
  lab = await makeLaboratory(testApp)
  designId = (await makeDesign(testApp, lab)).id
})
afterAll(() => testApp.close())

type Row = { testId: string; batchTestId: string; label: string; code: string; form: string; mixId: string | null }
const get = async (path: string) => (await lab.as('technician').get(lab.path(path)).expect(200)).body
const plan = (body: object, { key = newId(), as = 'engineer' as PersonKey } = {}) =>
  lab
    .as(as)
    .post(lab.path(`/designs/${designId}/material-tests`))
    .set('idempotency-key', key)
    .send(body)

it('is planned without a content, done at the bench, and answers its limit whatever content is recommended', async () => {
  const key = newId()
  const body = { methodKey: ofMaterials.key, replicates: 2 }
  const [first, second] = (await plan(body, { key }).expect(200)).body.items as [Row, Row]
  expect([first, second].map(({ label, form, mixId }) => [label, form, mixId])).toEqual([
    ['M-1', 'pill', null],
    ['M-2', 'pill', null],
  ])
  // Sent again with its key it is the same plan.
  expect((await plan(body, { key }).expect(200)).body.items).toEqual([first, second])
  expect(first.batchTestId).toBe(first.testId)

  const { tasks } = await get('/bench/queue?whose=all')
  expect(tasks.filter(({ methodKey }: { methodKey: string }) => methodKey === ofMaterials.key)).toHaveLength(2)
  expect((await get(`/items/${(first as Row & { itemId: string }).itemId}`)).code).toBe(first.code)
  await lab
    .as('technician')
    .post(lab.path(`/tests/${first.testId}/readings`))
    .send(aReading(testApp, 'stir', 'seconds', '95'))
    .expect(201)
  const { panel } = await get(`/designs/${designId}/range`)
  expect(panel.find(({ key: limit }: { key: string }) => limit === 'wet-stripping')).toMatchObject({
    // Seconds are no share of a surface: the value stands, and nothing is converted.
    verdict: 'undecided',
    value: '95',
    unit: 's',
    at: null,
    n: 1,
  })
  expect(await testApp.services.ledger.verify(lab.people.manager.actor, {})).toMatchObject({ whole: true })
})

it('two plans at once number on from each other', async () => {
  const body = { methodKey: ofMaterials.key, replicates: 2 }
  const answers = await Promise.all([plan(body), plan(body)])
  expect(answers.map(({ status }) => status)).toEqual([200, 200])
  const labels = answers.flatMap(({ body: { items } }) => items.map(({ label }: Row) => label))
  expect(labels.toSorted()).toEqual(['M-3', 'M-4', 'M-5', 'M-6'])
})

it('says what is wrong beside the field, and who may plan', async () => {
  const ofMix = await plan({ methodKey: stirring.key, replicates: 1 }).expect(400)
  expect(ofMix.body.errors).toMatchObject([{ path: 'methodKey' }])
  const none = await plan({ methodKey: ofMaterials.key, replicates: 0 }).expect(400)
  expect(none.body.errors).toMatchObject([{ path: 'replicates', message: 'Enter a whole number from 1 to 10.' }])
  await plan({ methodKey: ofMaterials.key, replicates: 1 }, { as: 'client' }).expect(403)
})
