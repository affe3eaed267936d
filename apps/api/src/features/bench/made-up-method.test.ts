import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { createCalculation } from '@curebook/trade/procedure/calculation-builder'
import type { MethodDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { evaluateFormulas, readingAt, resultOf } from '@curebook/trade/procedure/evaluation'
import { MethodInputError } from '@curebook/trade/quantity/method-input-error'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { weighBatches } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

const invented = 'Invented for this test'
const plain = { cautions: [], equipment: [], conditions: [] } as const

const steps: readonly StepDeclaration[] = [
  {
    ...plain,
    key: 'pour',
    title: 'Pour out',
    instruction: 'Pour the mix out on a plate.',
    events: ['start'],
    eventLabels: { start: 'Poured' },
    readings: [
      { key: 'lumps', label: 'Lumps', kind: 'count', unit: 'count', resolution: '1' },
      {
        key: 'edge',
        label: 'Edge',
        kind: 'choice',
        choices: [
          { key: 'whole', label: 'Whole' },
          { key: 'torn', label: 'Torn' },
        ],
      },
    ],
  },
  {
    ...plain,
    key: 'measure',
    title: 'Measure the spread',
    instruction: 'Measure three diameters.',
    events: [],
    readings: [
      {
        key: 'diameter',
        label: 'Diameter',
        kind: 'number',
        unit: 'mm',
        resolution: '1',
        plausible: { from: '50', to: '400', source: invented },
        repeats: 3,
      },
      { key: 'remark', label: 'What was seen', kind: 'text', optional: true },
    ],
    needs: ['pour'],
  },
]

/** Mean of three diameters, less 2 mm for each lump; a torn edge gives no result. Nobody tests mixes like this. */
const spread: MethodDeclaration = {
  key: 'made-up-spread',
  name: 'Made-up spread',
  shortName: 'Spread',
  answers: [],
  place: 'series',
  madeFrom: 'batch',
  form: 'disc',
  computation: 1,
  steps,
  windows: [
    {
      key: 'spread',
      label: 'Pouring to last diameter',
      step: 'measure',
      act: 'reading',
      after: { step: 'pour', act: 'start' },
      earliestParameter: 'earliest',
      latestParameter: 'latest',
      late: 'miss',
    },
  ],
  editions: [
    {
      key: 'made-up-1',
      designation: 'Made-up method',
      year: '2026',
      effectiveFrom: '2026-01-01',
      parameters: {
        earliest: {
          value: '5',
          unit: 'min',
          label: 'Spreads for, at least',
          source: invented,
          certainty: 'common practice',
        },
        latest: {
          value: '10',
          unit: 'min',
          label: 'Spreads for, at most',
          source: invented,
          certainty: 'common practice',
        },
        lump: {
          value: '2',
          unit: 'mm',
          label: 'Taken off for each lump',
          source: invented,
          certainty: 'common practice',
        },
      },
    },
  ],
  results: [{ key: 'spread', label: 'Spread', displayDecimals: 1 }],
  resultOfRecord: 'spread',
  evaluate: (readings, { parameters }) =>
    evaluateFormulas(steps, readings, [
      {
        keys: ['spread'],
        compute: () => {
          if (readingAt(readings, 'pour', 'edge').value === 'torn')
            throw new MethodInputError('inconsistent', 'The edge is torn: pour again.')
          const work = createCalculation()
          for (const repeat of [1, 2, 3]) {
            const { id, key, value } = readingAt(readings, 'measure', 'diameter', repeat)
            work.input({ symbol: `d${repeat}`, name: `Diameter ${repeat}`, unit: 'mm', source: 'as measured' }, value, {
              kind: 'reading',
              id,
              key,
            })
          }
          const lumps = readingAt(readings, 'pour', 'lumps')
          work.input({ symbol: 'n', name: 'Lumps', unit: 'count', source: 'as counted' }, lumps.value, {
            kind: 'reading',
            id: lumps.id,
            key: lumps.key,
          })
          work.input({ symbol: 'l', name: 'For each lump', unit: 'mm', source: invented }, parameters.lump!.value, {
            kind: 'parameter',
            key: 'lump',
          })
          work.mean({ symbol: 'd', name: 'Mean diameter', unit: 'mm', source: invented }, 'd1', 'd2', 'd3')
          work.product({ symbol: 'off', name: 'Taken off', unit: 'mm', source: invented }, 'n', 'l')
          work.difference({ symbol: 'S', name: 'Spread', unit: 'mm', source: invented }, 'd', 'off')
          return [resultOf(work.calculation(), { key: 'spread', label: 'Spread', displayDecimals: 1 })]
        },
      },
    ]),
}

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z', methods: [...builtInMethods, spread] })
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

type Row = { testId: string; label: string }
const get = async (path: string) => (await lab.as('technician').get(lab.path(path)).expect(200)).body
const post = (path: string, body: object) => lab.as('technician').post(lab.path(path)).send(body)
const read = (testId: string, stepKey: string, key: string, typed: string, repeat = 1) =>
  post(`/tests/${testId}/readings`, aReading(testApp, stepKey, key, typed, { repeat }))
const pour = (testId: string) =>
  post('/step-events', {
    stepKey: 'pour',
    kind: 'start',
    rows: [{ id: newId(), testId }],
    instrumentId: null,
    time: timeNow(testApp),
  }).expect(200)

it('a method that only this file declares is planned, done at the bench and computed like any other', async () => {
  expect((await get(`/methods/${spread.key}`)).editions).toMatchObject([
    { designation: 'Made-up method', inForce: true },
  ])
  const { id } = await makeDesign(testApp, lab)
  const series = {
    contents: [{ emulsionPercent: '12', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
    methods: [{ methodKey: spread.key, replicates: 2, spares: [] }],
  }
  const planned = await lab
    .as('engineer')
    .post(lab.path(`/designs/${id}/plan`))
    .set('idempotency-key', newId())
    .send(series)
    .expect(200)
  const [good, torn] = planned.body.items as [Row, Row]
  expect([good.label, torn.label]).toEqual(['12-1', '12-2'])
  await weighBatches(testApp, lab, planned.body.items)

  const { tasks } = await get('/bench/queue?whose=all')
  expect(tasks.filter(({ methodKey }: { methodKey: string }) => methodKey === spread.key)).toMatchObject([
    { stepTitle: 'Pour out' },
    { stepTitle: 'Pour out' },
  ])
  const before = await get(`/tests/${good.testId}`)
  expect(before.locks).toMatchObject([{ stepKey: 'measure' }])

  // Each kind of reading is taken as its declaration says, and refused beside the field otherwise.
  await pour(good.testId)
  expect((await read(good.testId, 'pour', 'lumps', '2.5').expect(400)).body.errors[0].path).toBe('typed')
  await read(good.testId, 'pour', 'lumps', '2').expect(201)
  expect((await read(good.testId, 'pour', 'edge', 'ragged').expect(400)).body.errors[0].path).toBe('typed')
  await read(good.testId, 'pour', 'edge', 'whole').expect(201)
  testApp.clock.advance({ minutes: 6 })
  await read(good.testId, 'measure', 'remark', 'spread evenly').expect(201)
  await read(good.testId, 'measure', 'diameter', '180', 3).expect(201)
  await read(good.testId, 'measure', 'diameter', '18,1 cm', 1).expect(201)
  expect((await read(good.testId, 'measure', 'diameter', '182', 4).expect(400)).body.errors[0].path).toBe('repeat')
  expect((await get(`/tests/${good.testId}`)).results).toEqual([])
  const { body: last } = await read(good.testId, 'measure', 'diameter', '183', 2).expect(201)

  // (181 + 183 + 180) ÷ 3 − 2 × 2
  expect(last).toMatchObject({
    testState: 'done',
    results: [{ key: 'spread', label: 'Spread', unit: 'mm', displayDecimals: 1, refusal: null }],
  })
  expect(Number(last.results[0].value)).toBeCloseTo(177.333333333333, 10)
  expect(last.windows).toMatchObject([{ key: 'spread', state: 'met' }])
  const result = await get(`/results/${last.results[0].id}`)
  expect(result).toMatchObject({
    checked: { agrees: true, differing: [] },
    computation: 1,
    edition: { designation: 'Made-up method' },
  })
  expect(result.calculation.lines.map(({ symbol }: { symbol: string }) => symbol)).toEqual([
    'd1',
    'd2',
    'd3',
    'n',
    'l',
    'd',
    'off',
    'S',
  ])

  // The other: late, and of a torn edge. The window opens a deviation, the result is refused with its own words.
  await pour(torn.testId)
  await read(torn.testId, 'pour', 'lumps', '0').expect(201)
  await read(torn.testId, 'pour', 'edge', 'torn').expect(201)
  testApp.clock.advance({ minutes: 14 })
  for (const repeat of [1, 2]) await read(torn.testId, 'measure', 'diameter', '170', repeat).expect(201)
  const { body: refused } = await read(torn.testId, 'measure', 'diameter', '171', 3).expect(201)
  expect(refused.results).toMatchObject([
    { value: null, refusal: { code: 'inconsistent', text: 'The edge is torn: pour again.' } },
  ])
  expect(refused.windows).toMatchObject([{ key: 'spread', state: 'late', marginSeconds: -240 }])
  const { items } = (
    await lab
      .as('engineer')
      .get(lab.path(`/deviations?open=yes&designId=${id}`))
      .expect(200)
  ).body
  expect(items).toHaveLength(1)
  expect(items[0].text).toContain('4 min too late')
  expect(await testApp.services.ledger.verify(lab.people.manager.actor, {})).toMatchObject({ whole: true })
})
