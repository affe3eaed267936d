import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { stirring } from '../../../../../tests/support/factories/panel-method.ts'
import { weighBatches } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

const source = 'Contract 7, clause 4'
/** At least 120 s, accepted from 120 + 5 = 125. */
const guarded = {
  ...{ key: 'mix-time', property: 'mix-time', label: 'Mix time', soak: null, sense: 'min', value: '120', unit: 's' },
  ...{ rounding: 'none', decisionRule: 'guard band', source, certainty: 'by contract' },
  uncertainty: { expanded: '5', coverageFactor: '2', source: 'own budget' },
}
/** Two made-up answers to properties that the specification does not name: a class, and a number. */
const paced = {
  ...stirring,
  ...{ key: 'made-up-class', name: 'Made-up class' },
  answers: [{ property: 'wet-stripping', result: 'class', passes: ['slow'] }],
}
const timed = {
  ...stirring,
  ...{ key: 'made-up-time', name: 'Made-up time' },
  answers: [{ property: 'cohesion-30-min', result: 'time' }],
}

let testApp: TestApp
let lab: TestLaboratory
let path: string
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z', methods: [stirring, paced, timed, ...builtInMethods] })
  lab = await makeLaboratory(testApp)
  const engineer = lab.as('engineer')
  const { id, version } = await makeDesign(testApp, lab)
  path = lab.path(`/designs/${id}`)
  const specification = await engineer
    .post(lab.path('/specifications/own'))
    .send({
      ...{ id: newId(), name: 'Guarded', source, aggregateType: 'Type II', traffic: 'heavy' },
      residualBand: { from: '5.5', to: '10.5', source, certainty: 'by contract' },
      limits: [guarded],
    })
    .expect(201)
  await engineer
    .patch(path)
    .set('if-match', `"${version}"`)
    .send({ specificationId: specification.body.id })
    .expect(200)
})
afterAll(() => testApp.close())

const view = async () => (await lab.as('technician').get(`${path}/panel-tests`).expect(200)).body
const stirred = async (methodKey: string, emulsionPercent: string, ...times: readonly string[]) => {
  const planned = await lab
    .as('engineer')
    .post(`${path}/plan`)
    .set('idempotency-key', newId())
    .send({
      contents: [{ emulsionPercent, waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
      methods: [{ methodKey, replicates: times.length, spares: [] }],
    })
    .expect(200)
  await weighBatches(testApp, lab, planned.body.items)
  for (const [index, typed] of times.entries())
    for (const [key, value] of [
      ['room', '25.0'],
      ['seconds', typed],
    ] as const)
      await lab
        .as('technician')
        .post(lab.path(`/tests/${planned.body.items[index].testId}/readings`))
        .send(aReading(testApp, 'stir', key, value))
        .expect(201)
}
type Property = { label: string; limitKey: string | null; found: object[] }
const properties = async (label: string): Promise<Property[]> =>
  (await view()).panels
    .flatMap(({ tests }: { tests: { properties: Property[] }[] }) => tests.flatMap((test) => test.properties))
    .filter((property: Property) => property.label === label)

it('draws the acceptance limit of a guard band beside the limit', async () => {
  await stirred(stirring.key, '12', '170')
  expect((await view()).charts[0].limits).toEqual([
    {
      ...{ key: 'mix-time', label: 'Mix time', value: '120', upper: null, unit: 's', sense: 'min' },
      accepted: { value: '125', upper: null },
    },
  ])
})

it('tells what was found of a property without a limit, by content, and judges none of it', async () => {
  const name = 'Cohesion at 30 min'
  expect((await properties(name)).map(({ limitKey, found }) => [limitKey, found])).toEqual([
    [null, []],
    [null, []],
  ])
  await stirred(timed.key, '12', '170', '141')
  await stirred(timed.key, '14', '90')
  await stirred(paced.key, '12', '170', '100')
  const common = { methodKey: timed.key, unit: 's', classes: null }
  // (170 + 141) ÷ 2
  expect((await properties(name))[0]!.found).toEqual([
    { ...common, emulsionPercent: '12', n: 2, value: '155.5' },
    { ...common, emulsionPercent: '14', n: 1, value: '90' },
  ])
  const [stripping] = await properties('Wet stripping, surface still coated')
  expect(stripping!.found).toMatchObject([{ n: 2, value: null, unit: null, classes: 'Slow (12-1), Quick (12-2)' }])
  // What has a limit is told with its row.
  expect((await properties('Mix time'))[0]).toMatchObject({ limitKey: 'mix-time', found: [] })
})

it('gives what has no limit a line of the table of results', async () => {
  const { panel, overall } = (await lab.as('engineer').get(`${path}/range`).expect(200)).body
  const line = (key: string) => panel.find((row: { key: string }) => row.key === key)
  // Two contents were tested and none is recommended: it stands, and gives no single value.
  expect(line('unheld:cohesion-30-min')).toMatchObject({
    ...{ label: 'Stirring time: Made-up time', limit: 'no limit held', limitSource: 'not named by the specification' },
    ...{ value: null, verdict: 'no limit held', margin: null },
  })
  expect(line('unheld:wet-stripping')).toMatchObject({
    ...{ verdict: 'no limit held', value: null, classes: 'Slow (12-1), Quick (12-2)', at: 'at 12 % emulsion', n: 2 },
  })
  expect(overall).toContain('No limit held: ')
  const { properties } = await view()
  expect(properties.find(({ limitKey }: { limitKey: string }) => limitKey === 'unheld:wet-stripping').methods).toEqual(
    expect.arrayContaining([expect.objectContaining({ key: paced.key })]),
  )
})
