import type { TestApp } from '../support/app.ts'
import type { TestLaboratory } from '../support/factories/laboratory.ts'
import { loginOf, startBareRoute, statementsOf } from './bare-route.ts'
import { concurrency, type LoadRequest, sendAll } from './requests.ts'
import { percentile, ratio, say, type Rate } from './say.ts'

/** The 95th percentile of each read, ms, by its name. */
export type Slowest = Readonly<Record<string, number>>

/**
 * What people look at most, each beside the same SQL on a bare route, in turns within one run.
 * @param many how many readings the laboratory holds, for the line printed
 */
export async function measureReads(
  testApp: TestApp,
  lab: TestLaboratory,
  { designId, many }: { designId: string; many: number },
): Promise<Slowest> {
  const { technician, manager, engineer } = lab.people
  const { bench, schedule, range } = testApp.services
  const reads = [
    ['Bench queue', '/bench/queue?whose=all', technician, () => bench.queue.queue(technician.actor, { whose: 'all' })],
    ['Schedule', '/schedule', manager, () => schedule.read(manager.actor)],
    ['A design’s range', `/designs/${designId}/range`, engineer, () => range.read(engineer.actor, designId)],
  ] as const
  const slowest: Record<string, number> = {}
  for (const [what, address, { cookie }, read] of reads) {
    const statements = await statementsOf(loginOf(testApp), read)
    const bare = await startBareRoute(testApp.database, () => statements)
    const rates = { product: [] as Rate[], bare: [] as Rate[] }
    for (let turn = 0; turn < 5; turn += 1)
      for (const to of ['product', 'bare'] as const) {
        const one: LoadRequest =
          to === 'bare'
            ? { url: bare.url, method: 'POST', headers: { 'content-type': 'application/json' }, body: '{}' }
            : { url: `${testApp.url}${lab.path(address)}`, method: 'GET', headers: { cookie } }
        const lanes = Array.from({ length: concurrency }, () => Array.from({ length: 25 }, () => one))
        const { statuses, ...rate } = await sendAll(lanes, concurrency)
        if (Object.keys(statuses).some((status) => !status.startsWith('2')))
          throw new Error(`${what}, ${to}, answered ${JSON.stringify(statuses)}`)
        if (turn > 0) rates[to].push(rate)
      }
    await bare.app.close()
    slowest[what] = percentile(
      rates.product.flatMap(({ times }) => times),
      0.95,
    )
    say(`${what}, ${many} readings`, ratio(rates.product, rates.bare), 'at least 60 % of the same SQL')
  }
  return slowest
}

/** How much slower each read became as the readings grew. */
export function sayGrowth(before: Slowest, after: Slowest): void {
  for (const [what, p95] of Object.entries(after))
    say(`${what}, growth of p95`, `${(p95 / before[what]!).toFixed(2)} ×`, 'at most 1.5 ×')
}
