import type { SpecimenRow } from '@curebook/contract/designs'
import type { TestApp } from '../support/app.ts'
import { aReading } from '../support/factories/bench.ts'
import type { TestLaboratory } from '../support/factories/laboratory.ts'
import { loginOf, startBareRoute, type Statement, statementsOf, valuesFor } from './bare-route.ts'
import { concurrency, type LoadRequest, sendAll } from './requests.ts'
import { say, ratio, type Rate } from './say.ts'

const components = { aggregate: '799.8', filler: '8.0', additive: '1.6', water: '88.0', emulsion: '80.0' }
type Component = keyof typeof components

/** Posting a reading beside the same statements without sign-in, check and computation. */
export async function measurePosting(
  testApp: TestApp,
  lab: TestLaboratory,
  specimens: readonly SpecimenRow[],
): Promise<void> {
  const { technician } = lab.people
  const [sample, ...others] = specimens.map(({ batchTestId }) => batchTestId) as [string, ...string[]]
  const since = Date.now()
  const captured = {} as Record<Component, { id: string; statements: Statement[] }>
  for (const [component, typed] of Object.entries(components) as [Component, string][]) {
    const reading = aReading(testApp, 'weigh-components', component, typed)
    const statements = await statementsOf(loginOf(testApp), () =>
      testApp.services.bench.readings.post(technician.actor, sample, reading),
    )
    captured[component] = { id: reading.id, statements }
  }
  const knownOf = new Map<string, Map<string, string>>()
  const bare = await startBareRoute(testApp.database, ({ testId, id, key }) => {
    const known = knownOf.get(testId!) ?? new Map([[sample, testId!]])
    knownOf.set(testId!, known)
    const { id: capturedId, statements } = captured[key as Component]
    known.set(capturedId, id!)
    return statements.map(({ text, values }) => ({ text, values: valuesFor(values, known, since) }))
  })
  const lane = (testId: string, to: 'product' | 'bare'): LoadRequest[] =>
    (Object.entries(components) as [Component, string][]).map(([component, typed]) => {
      const reading = aReading(testApp, 'weigh-components', component, typed)
      return {
        url: to === 'bare' ? bare.url : `${testApp.url}${lab.path(`/tests/${testId}/readings`)}`,
        method: 'POST',
        headers: { 'content-type': 'application/json', cookie: technician.cookie },
        body: JSON.stringify(to === 'bare' ? { testId, ...reading } : reading),
      }
    })
  const rates = { product: [] as Rate[], bare: [] as Rate[] }
  // In turns, so that a slow moment of the machine meets both; the first turn warms up.
  const turns = 5
  const each = Math.floor(others.length / (2 * turns))
  for (let turn = 0; turn < turns; turn += 1)
    for (const to of ['product', 'bare'] as const) {
      const { statuses, ...rate } = await sendAll(
        others.splice(0, each).map((testId) => lane(testId, to)),
        concurrency,
      )
      if (Object.keys(statuses).join() !== '201')
        throw new Error(`Posting to the ${to} answered ${JSON.stringify(statuses)}`)
      if (turn > 0) rates[to].push(rate)
    }
  await bare.app.close()
  say('Posting a reading, of the bare statements', ratio(rates.product, rates.bare), 'at least 40 %')
}
