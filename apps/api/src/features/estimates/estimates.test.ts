import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
let lab: TestLaboratory
let id: string

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  id = (await makeDesign(testApp, lab)).id
})
afterAll(() => testApp.close())

const sizes = ['9,5', '4.75', '2.36', '1.18', '0.6', '0.3', '0.15', '0.075']
const passing = ['100', '95', '78', '57', '40', '24', '15', '10']
const sieves = sizes.map((size, index) => ({ size, passing: passing[index]! }))
const enterGradation = (more: object = {}) =>
  lab
    .as('technician')
    .post(lab.path(`/designs/${id}/gradations`))
    .send({
      id: newId(),
      sieves,
      madeBy: 'entered',
      method: 'Dry and washed sieving',
      observedBy: 'B. Person',
      observedOn: '2026-03-02',
      ...more,
    })
    .expect(201)
const ask = (query: object = {}) =>
  lab
    .as('engineer')
    .get(lab.path(`/designs/${id}/estimates`))
    .query(query)
const inputs = { apparentGravity: '2,96', absorption: '2.2 %', binderGravity: '1.02' }
type Asked = { key: string; contents: { key: string; value: string }[]; refusal: { code: string; text: string } | null }
const short = (estimates: readonly Asked[]) =>
  estimates.map(({ key, contents, refusal }) => [
    key,
    refusal?.code ?? null,
    ...contents.map(({ key: of, value }) => `${of} ${Number(value).toFixed(3)}`),
  ])

test('without a gradation there is nothing to estimate from', async () => {
  const { body } = await ask(inputs).expect(200)
  expect(body).toMatchObject({ gradation: null, estimates: [] })
})

test('from gradation, gravity and absorption: contents with working and source, the same in both systems', async () => {
  const { body: gradation } = await enterGradation()
  const { body } = await ask(inputs).expect(200)
  const residue = Number(body.residue.value)
  expect(body.gradation).toEqual(gradation)
  expect(short(body.estimates)).toEqual([
    ['surface-area-us', null, 'residual-binder 9.584', expect.stringMatching(/^emulsion /)],
    ['surface-area-si', null, expect.stringMatching(/^residual-binder 9\.58/), expect.stringMatching(/^emulsion /)],
    ['emulsion-by-fractions', null, `residual-binder ${((12.9 * residue) / 100).toFixed(3)}`, 'emulsion 12.900'],
  ])
  const [first] = body.estimates
  const [binder, emulsion] = first.contents.map(({ value }: { value: string }) => Number(value))
  expect(emulsion).toBeCloseTo((binder * 100) / residue, 9)
  expect(first).toMatchObject({
    certainty: 'published',
    source: expect.stringContaining('UFC 3-250-03 (2001)') as string,
  })
  const lines = first.contents[0].calculation.lines as { symbol: string; value: string; source: string }[]
  expect(lines.find(({ symbol }) => symbol === 'p1')).toMatchObject({
    value: '100',
    source: expect.stringContaining('Dry and washed sieving') as string,
    input: { kind: 'result', id: gradation.id },
  })
  expect(lines.find(({ symbol }) => symbol === 'ASG')).toMatchObject({
    value: '2.96',
    source: 'as entered for this estimate',
  })
  expect(lines.at(-1)).toMatchObject({ symbol: 'AR', value: first.contents[0].value })
})

test('what is not given is named and never taken for granted; the rest is estimated all the same', async () => {
  await enterGradation()
  const { body } = await ask().expect(200)
  expect(short(body.estimates).map((row) => row.slice(0, 2))).toEqual([
    ['surface-area-us', 'missing-setup'],
    ['surface-area-si', 'missing-setup'],
    ['emulsion-by-fractions', null],
  ])
  expect(body.estimates[0].refusal.text).toBe(
    'The apparent specific gravity of the aggregate is not given yet: enter it.',
  )
})

test('a film and cement beside the gradation change the estimate', async () => {
  await enterGradation()
  const binder = async (more: object) =>
    Number((await ask({ ...inputs, ...more }).expect(200)).body.estimates[0].contents[0].value)
  const usual = await binder({})
  expect((await binder({ filler: '1' })) - usual).toBeCloseTo(0.6, 9)
  expect((await binder({ film: '4' })) - 2.2).toBeCloseTo((usual - 2.2) / 2, 9)
})

test('a gradation in a file alone, or of other sieves, is said to be so', async () => {
  await enterGradation({ sieves: sieves.filter(({ size }) => size !== '1.18') })
  const { body } = await ask(inputs).expect(200)
  expect(body.estimates[0].refusal.text).toContain('no sieve of 1.18 mm')
  expect(body.estimates[2].refusal).toBeNull()
})

test('what is no number is refused beside its field, and what cannot be beside its estimate', async () => {
  await enterGradation()
  const { body: refused } = await ask({ apparentGravity: 'heavy', absorption: '2.2', film: '8,0,0' }).expect(400)
  expect(refused.errors.map(({ path }: { path: string }) => path)).toEqual(['apparentGravity', 'film'])
  const { body } = await ask({ ...inputs, apparentGravity: '0' }).expect(200)
  expect(body.estimates[0].refusal).toMatchObject({ code: 'not-positive' })
  await ask({ ...inputs, colour: 'black' }).expect(400)
})

test('asking changes nothing: no ledger entry, and another laboratory’s design is none', async () => {
  await enterGradation()
  const entries = async () =>
    (await lab.as('manager').get(lab.path('/ledger/entries')).query({ limit: 200 }).expect(200)).body.items.length
  const before = await entries()
  await ask(inputs).expect(200)
  expect(await entries()).toBe(before)
  const other = await makeLaboratory(testApp)
  await other
    .as('engineer')
    .get(other.path(`/designs/${id}/estimates`))
    .expect(404)
})
