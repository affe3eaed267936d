import { builtInMethods } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { createReadingsService } from './readings.service.ts'

vi.setConfig({ testTimeout: 120_000 })

// A device that got no answer sends again, and the server may be a newer build by then.

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

/** As a later build may compute: another sentence with each result of the cone. */
const later = builtInMethods.map((method): MethodDeclaration =>
  method.key === 'cone-consistency'
    ? {
        ...method,
        evaluate: (readings, setup) => {
          const found = method.evaluate(readings, setup)
          return { ...found, results: found.results.map((result) => ({ ...result, findings: ['Told since.'] })) }
        },
      }
    : method,
)

it('a reading and a weighing that come again after the build changed leave no result without an entry', async () => {
  const lab = await makeLaboratory(testApp)
  const { id } = await makeDesign(testApp, lab)
  const { body } = await lab
    .as('engineer')
    .post(lab.path(`/designs/${id}/plan`))
    .set('idempotency-key', newId())
    .send({
      contents: [{ emulsionPercent: '12', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
      methods: [{ methodKey: 'cone-consistency', replicates: 1, spares: [] }],
    })
    .expect(200)
  const { testId, batchTestId } = body.items[0] as { testId: string; batchTestId: string }
  const technician = lab.people.technician.actor
  const { laboratory, bench, ledger } = testApp.services
  const read = (step: string, key: string, typed: string, repeat = 1) =>
    aReading(testApp, step, key, typed, { confirmedOdd: true, repeat })
  const weighing = read('weigh-components', 'aggregate', '400.0')
  const last = read('cone-1', 'segregation', 'none')
  await bench.readings.post(technician, batchTestId, weighing)
  for (const one of [
    read('prepare', 'moisture', '0'),
    read('prepare', 'temperature', '25.0'),
    ...[1, 2, 3, 4].map((place) => read('cone-1', 'flow', '20', place)),
    last,
  ])
    await bench.readings.post(technician, testId, one)

  const newer = createReadingsService({ laboratory, methods: later, build: 'a later one' })
  for (const [test, input] of [
    [batchTestId, weighing],
    [testId, last],
  ] as const)
    expect(await newer.post(technician, test, input)).toMatchObject({ created: false })
  const results = (await bench.view.one(technician, testId)).results
  expect(results.find(({ key }) => key === 'consistency')).toMatchObject({ value: '20', findings: 'Told since.' })
  expect(await ledger.verify(lab.people.manager.actor, {})).toMatchObject({ whole: true, firstBreak: null })
})
