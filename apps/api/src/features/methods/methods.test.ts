import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { wetTrackAbrasion1h } from '@curebook/trade/methods/wet-track-abrasion'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { systemActor } from '#platform/actor'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { copyBuiltInEditions } from './built-in-editions.ts'

const key = 'wet-track-abrasion-1h'
let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

async function read() {
  return (
    await lab
      .as('technician')
      .get(lab.path(`/methods/${key}`))
      .expect(200)
  ).body
}
const changed = (copiedFrom: string, value = '70', effectiveFrom = '2026-03-02') => ({
  id: newId(),
  copiedFrom,
  changes: [{ parameter: 'soak-latest', value, source: 'Own validation 7', certainty: 'common practice' }],
  effectiveFrom,
  reason: 'The bath is slow to reach',
})
const post = (body: object, url?: string) =>
  lab
    .as('manager', url)
    .post(lab.path(`/methods/${key}/editions`))
    .send(body)
const inLaboratory = <T>(methods: readonly MethodDeclaration[], look: (count: number) => T) =>
  testApp.services.laboratory.inLaboratory(systemActor(lab.labId), async (tx) => {
    await copyBuiltInEditions(tx, methods)
    return look(await tx.prisma.methodEdition.count({ where: { methodKey: key } }))
  })

test('a new laboratory holds every built-in edition, in force and with its sources', async () => {
  const { body } = await lab.as('auditor').get(lab.path('/methods')).expect(200)
  expect(body.items.map((method: { key: string }) => method.key)).toEqual(builtInMethods.map((method) => method.key))
  for (const { editions, builtIn } of body.items)
    expect(editions).toMatchObject([
      { origin: 'built-in', revision: 1, inForce: true, superseded: false, parameters: builtIn },
    ])
})

test('a laboratory edition changes one bound, is in force from its day, and shows what it came from', async () => {
  const { editions, builtIn } = await read()
  const { body } = await post(changed(editions[0].id)).expect(201)
  expect(body).toMatchObject({
    origin: 'laboratory',
    revision: 2,
    inForce: true,
    parameters: { 'soak-latest': { value: '70', source: 'Own validation 7', certainty: 'common practice' } },
  })
  const after = await read()
  expect(
    after.editions.map(({ inForce, superseded }: { inForce: boolean; superseded: boolean }) => [inForce, superseded]),
  ).toEqual([
    [true, false],
    [false, true],
  ])
  expect(after.builtIn['soak-latest']).toEqual(builtIn['soak-latest'])
})

test('an edition for a later day waits for it', async () => {
  const { editions } = await read()
  await post(changed(editions[0].id, '70', '2026-03-03')).expect(201)
  expect((await read()).editions.map(({ inForce }: { inForce: boolean }) => inForce)).toEqual([false, true])
  testApp.clock.advance({ hours: 24 })
  expect((await read()).editions.map(({ inForce }: { inForce: boolean }) => inForce)).toEqual([true, false])
})

test('two people changing one edition at once through two servers: one stands, the other is told', async () => {
  const { editions } = await read()
  const other = await testApp.startAnother()
  try {
    const answers = await Promise.all([
      post(changed(editions[0].id, '70')),
      post(changed(editions[0].id, '72'), other.url),
    ])
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409])
    const problem = answers.find(({ status }) => status === 409)!.body
    expect(problem.stored.revision).toBe(2)
    expect((await read()).editions).toHaveLength(2)
  } finally {
    await other.close()
  }
})

test('the same request twice at once is one edition', async () => {
  const body = changed((await read()).editions[0].id)
  const answers = await Promise.all([post(body), post(body)])
  expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 201])
})

test('what cannot stand is refused beside its field', async () => {
  const { editions } = await read()
  const body = changed(editions[0].id)
  const paths = async (more: object) =>
    (await post({ ...body, ...more }).expect(400)).body.errors.map(({ path }: { path: string }) => path)
  expect(await paths({ copiedFrom: newId() })).toEqual(['copiedFrom'])
  expect(await paths({ changes: [{ ...body.changes[0], value: '59' }] })).toEqual(['changes.0.value'])
  expect(await paths({ changes: [] })).toEqual(['changes'])
  expect(await paths({ reason: '' })).toEqual(['reason'])
})

test('a newer built-in edition comes in beside what a laboratory decided, and only once', async () => {
  const { editions } = await read()
  await post(changed(editions[0].id)).expect(201)
  const shipped = wetTrackAbrasion1h.editions[0]!
  const newer = {
    ...wetTrackAbrasion1h,
    editions: [
      {
        ...shipped,
        parameters: { ...shipped.parameters, 'soak-latest': { ...shipped.parameters['soak-latest']!, value: '74' } },
      },
    ],
  }
  expect(await inLaboratory(builtInMethods, (count) => count)).toBe(2)
  const counts = await Promise.all([inLaboratory([newer], (count) => count), inLaboratory([newer], (count) => count)])
  expect(Math.max(...counts)).toBe(3)
  expect(
    (await read()).editions.map(({ origin, inForce }: { origin: string; inForce: boolean }) => [origin, inForce]),
  ).toEqual([
    ['built-in', false],
    ['laboratory', true],
    ['built-in', false],
  ])
})

test('only a manager changes bounds; unknown methods and other laboratories are not found', async () => {
  const { editions } = await read()
  await lab
    .as('engineer')
    .post(lab.path(`/methods/${key}/editions`))
    .send(changed(editions[0].id))
    .expect(403)
  await lab.as('manager').get(lab.path('/methods/nothing')).expect(404)
  const elsewhere = await makeLaboratory(testApp)
  await lab.as('manager').get(elsewhere.path('/methods')).expect(404)
  await post(changed(newId())).expect(400)
})
