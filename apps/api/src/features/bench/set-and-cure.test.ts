import type { TestView } from '@curebook/contract/bench'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, confirm } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { weighBatches } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
let lab: TestLaboratory
let designId: string
/** The one test of each method, at 12 % of emulsion. */
const testOf: Record<string, string> = {}

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  lab = await makeLaboratory(testApp)
  designId = (await makeDesign(testApp, lab)).id
  const methods = ['trial-mix', 'trial-mix-at-temperature', 'cohesion']
  const { body } = await lab
    .as('engineer')
    .post(lab.path(`/designs/${designId}/plan`))
    .set('idempotency-key', newId())
    .send({
      contents: [{ emulsionPercent: '12', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
      methods: methods.map((methodKey) => ({ methodKey, replicates: 1, spares: [] })),
    })
    .expect(200)
  for (const { methodKey, testId } of body.items) testOf[methodKey] = testId
  await weighBatches(testApp, lab, body.items)
})
afterAll(() => testApp.close())

const get = async (path: string) => (await lab.as('technician').get(lab.path(path)).expect(200)).body
const rowOf = async (property: string) =>
  (await get(`/designs/${designId}/range`)).panel.find(({ key }: { key: string }) => key === property)
const read = async (method: string, step: string, values: Readonly<Record<string, string>>) => {
  for (const [key, typed] of Object.entries(values))
    await testApp.services.bench.readings.post(
      lab.people.technician.actor,
      testOf[method]!,
      aReading(testApp, step, key, typed, { confirmedOdd: true }),
    )
}
const viewOf = (method: string): Promise<TestView> => get(`/tests/${testOf[method]}`)
const resultOf = ({ results }: TestView, key: string) => results.find((result) => result.key === key)

it('has a batch of its own portion for each: 100 g in a cup, 400 g for a set of rings', async () => {
  const { items } = await get(`/designs/${designId}/batch-sheets`)
  expect(
    items
      .map(({ methodKey, dryAggregateG, form }: Record<string, string>) => [methodKey, dryAggregateG, form])
      .toSorted(),
  ).toEqual([
    ['cohesion', '400', 'ring'],
    ['trial-mix', '100', 'cup'],
    ['trial-mix-at-temperature', '100', 'cup'],
  ])
})

it('a cup at 25 °C answers the mix time; a hot one stands beside it and is never averaged in', async () => {
  for (const [method, temperature, seconds] of [
    ['trial-mix-at-temperature', '35.2', '118'],
    ['trial-mix', '25.4', '171'],
  ] as const) {
    await confirm(testApp, lab, [testOf[method]!], 'stir', 'start')
    testApp.clock.advance({ minutes: 5 })
    await read(method, 'stir', { temperature, consistency: 'creamy', 'mix-time': seconds, break: 'gradual' })
    await read(method, 'look', { coated: '100' })
  }
  expect(resultOf(await viewOf('trial-mix'), 'mix-time')).toMatchObject({
    value: '171',
    findings: null,
  })
  expect(resultOf(await viewOf('trial-mix-at-temperature'), 'mix-time')).toMatchObject({ value: '118', findings: null })
  expect(await rowOf('mix-time')).toMatchObject({ verdict: 'pass', value: '171', n: 1 })
  // Clear water is seen later and holds nothing up.
  expect((await viewOf('trial-mix')).state).toBe('done')
})

it('a set of rings answers both cohesions, names its classes, and refuses the time that lies beyond its twists', async () => {
  const method = 'cohesion'
  const before = await viewOf(method)
  expect(before.batchOpen).toBe(false)
  // No ring is twisted that is not cast, whether its minute is asked for or only possible.
  expect(before.locks.map(({ stepKey }) => stepKey)).toEqual(
    expect.arrayContaining(['twist-20', 'twist-30', 'twist-90']),
  )
  await read(method, 'check', { 'room-temperature': '25.0', 'foot-pressure': '200' })
  await confirm(testApp, lab, [testOf[method]!], 'cast', 'start')
  for (const [minutes, planned, torque, broke] of [
    [20, '20', '9.0', 'soft'],
    [10, '30', '12.5', 'n'],
    [30, '60', '19.5', 'ns'],
  ] as const) {
    testApp.clock.advance({ minutes })
    await read(method, `twist-${planned}`, { minute: planned, torque, break: broke })
  }
  const view = await viewOf(method)
  // 20 + 10 × (12 − 9) ÷ 3.5, shown in the unit and with the decimals that the method declares
  expect(Number(resultOf(view, 'set-time')?.value)).toBeCloseTo(28.571, 3)
  expect(resultOf(view, 'traffic-time')).toMatchObject({ value: null, refusal: { code: 'not-bracketed' } })
  expect(resultOf(view, 'set-class')).toMatchObject({ choice: 'Quick-set' })
  expect(resultOf(view, 'traffic-class')).toMatchObject({ choice: 'Slow-traffic' })
  expect(await rowOf('cohesion-30-min')).toMatchObject({ verdict: 'pass', value: '12.5', n: 1 })
  expect(await rowOf('cohesion-60-min')).toMatchObject({ verdict: 'fail', value: '19.5', n: 1 })

  // A ring kept for later: the time is found, and what was refused gives way to it.
  testApp.clock.advance({ minutes: 30 })
  await read(method, 'twist-90', { minute: '90', torque: '21.5', break: 'ns' })
  expect(resultOf(await viewOf(method), 'traffic-time')).toMatchObject({ value: '67.5', unit: 'min', refusal: null })
})
