import type { Method } from '@curebook/contract/methods'
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
  for (const [index, { editions, builtIn }] of body.items.entries()) {
    const [newest, ...older] = editions
    const standing = { origin: 'built-in', revision: 1, superseded: false }
    expect(editions).toHaveLength(builtInMethods[index]!.editions.length)
    expect(newest).toMatchObject({ ...standing, inForce: true, standing: 'in-force' })
    for (const edition of older) expect(edition).toMatchObject({ ...standing, inForce: false, standing: 'beside' })
    for (const { editionKey, parameters } of editions) expect(parameters).toEqual(builtIn[editionKey])
  }
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
  expect(after.builtIn).toEqual(builtIn)
  expect(builtIn[editions[0].editionKey]['soak-latest'].value).toBe(editions[0].parameters['soak-latest'].value)
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

test('of a method with two editions the older one is chosen as it stands, and a change of it is held against its own values', async () => {
  const path = lab.path('/methods/wet-track-abrasion-en')
  const readEn = async () => (await lab.as('manager').get(path).expect(200)).body
  const { editions } = await readEn()
  expect(editions.map(({ year, standing }: { year: string; standing: string }) => [year, standing])).toEqual([
    ['2018', 'in-force'],
    ['2003', 'beside'],
  ])
  const choose = (copiedFrom: string, effectiveFrom: string, more: object = {}) => ({
    ...{ id: newId(), copiedFrom, changes: [], effectiveFrom, reason: 'The contract asks for it' },
    ...more,
  })
  const send = (body: object) => lab.as('manager').post(`${path}/editions`).send(body)
  const refused = await send(choose(editions[0].id, '2026-03-02')).expect(400)
  expect(refused.body.errors).toMatchObject([{ path: 'changes' }])

  const chosen = await send(choose(editions[1].id, '2026-03-02')).expect(201)
  expect(chosen.body).toMatchObject({ year: '2003', origin: 'laboratory', revision: 2, standing: 'in-force' })
  expect(chosen.body.parameters).toEqual(editions[1].parameters)

  // Back to 2018 from a later day: until then 2003 is in force, and the new one waits.
  const back = await send(choose(editions[0].id, '2026-04-01')).expect(201)
  expect(back.body).toMatchObject({ year: '2018', standing: 'waiting' })
  expect(
    (await readEn()).editions.map(({ year, origin, standing }: Record<string, string>) => [year, origin, standing]),
  ).toEqual(
    expect.arrayContaining([
      ['2018', 'laboratory', 'waiting'],
      ['2003', 'laboratory', 'in-force'],
      ['2018', 'built-in', 'replaced'],
      ['2003', 'built-in', 'replaced'],
    ]),
  )
})

test('an own edition is made of every method, and every method shows a case worked line by line', async () => {
  const { body } = await lab.as('manager').get(lab.path('/methods')).expect(200)
  for (const { key: method, editions } of body.items) {
    const [current] = editions
    const [parameter, held] = Object.entries(current.parameters as Record<string, { value: string }>)[0]!
    const change = { parameter, value: held.value, source: 'Own trials, 2026', certainty: 'common practice' }
    await lab
      .as('manager')
      .post(lab.path(`/methods/${method}/editions`))
      .send({
        ...{ id: newId(), copiedFrom: current.id, changes: [change] },
        ...{ effectiveFrom: '2026-03-02', reason: 'Checked here' },
      })
      .expect(201)
    const { body: worked } = await lab
      .as('auditor')
      .get(lab.path(`/methods/${method}/example`))
      .expect(200)
    expect(worked.example, method).toMatchObject({ title: expect.any(String), source: expect.any(String) })
    for (const { calculation, value } of worked.example.results)
      if (value !== null) expect(calculation.lines.at(-1).value, method).toBe(value)
  }
  await lab.as('auditor').get(lab.path('/methods/nothing/example')).expect(404)
})

test('every result that is a number says its unit, also where its declaration leaves it open', async () => {
  const { body } = await lab.as('auditor').get(lab.path('/methods')).expect(200)
  const results = (body.items as Method[]).flatMap((method) => method.results)
  // The moisture of a sample has its unit in its name.
  const numbers = results.filter(({ choices, label }) => choices === undefined && !label.includes('%'))
  expect(numbers.filter(({ unit }) => unit === undefined)).toEqual([])
  expect(results).toContainEqual(expect.objectContaining({ key: 'loss', label: 'Loss, 1-hour soak', unit: 'g' }))
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
