import type { SpecimenRow } from '@curebook/contract/designs'
import { acceptableRange } from '@curebook/trade/design/acceptable-range'
import type { CurveInput } from '@curebook/trade/design/curve'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { renderReport } from '../../apps/api/src/features/reports/render/render-report.ts'
import { sampleReport } from '../../apps/api/src/features/reports/render/sample-content.ts'
import { startTestApp, type TestApp } from '../support/app.ts'
import { connect } from '../support/as-login.ts'
import { cloneOf } from '../support/database.ts'
import { aReading } from '../support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../support/factories/laboratory.ts'
import { startProduct } from '../support/product.ts'
import { startTestCluster } from '../support/test-cluster.ts'
import { startBareRoute, type Statement, statementsOf, valuesFor } from './bare-route.ts'
import { type LoadRequest, sendAll } from './requests.ts'

// `npm run bench`: measures against the targets of the design and prints; nothing is asserted. `--without-starts` leaves out
// the two starts of the product, which take minutes on a slow machine; `--reads-only` measures the reads and nothing else.

const say = (what: string, measured: string, target: string) =>
  process.stdout.write(`${what.padEnd(44)} ${measured.padEnd(46)} aim: ${target}\n`)
const ratio = (ours: number, bare: number) =>
  `${ours.toFixed(0)}/s of ${bare.toFixed(0)}/s bare, ${((ours / bare) * 100).toFixed(0)} %`
const milliseconds = (times: number[]) =>
  `${[...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!.toFixed(1)} ms (median of ${times.length})`
const concurrency = 4
const loginOf = ({ config }: TestApp) => new URL(config.secrets.appUrl).username

const components = { aggregate: '799.8', filler: '8.0', additive: '1.6', water: '88.0', emulsion: '80.0' }
type Component = keyof typeof components

async function measurePosting(testApp: TestApp, lab: TestLaboratory, specimens: readonly SpecimenRow[]): Promise<void> {
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
  const rates = { product: [] as number[], bare: [] as number[] }
  // In turns, so that a slow moment of the machine meets both; the first turn warms up.
  const turns = 5
  const each = Math.floor(others.length / (2 * turns))
  for (let turn = 0; turn < turns; turn += 1)
    for (const to of ['product', 'bare'] as const) {
      const { perSecond, statuses } = await sendAll(
        others.splice(0, each).map((testId) => lane(testId, to)),
        concurrency,
      )
      if (Object.keys(statuses).join() !== '201')
        throw new Error(`Posting to the ${to} answered ${JSON.stringify(statuses)}`)
      if (turn > 0) rates[to].push(perSecond)
    }
  say('Posting a reading, of the bare statements', ratio(mean(rates.product), mean(rates.bare)), 'at least 40 %')
  await bare.app.close()
}

async function measureReads(testApp: TestApp, lab: TestLaboratory): Promise<void> {
  const { technician, manager } = lab.people
  const reads = [
    [
      'Bench queue',
      '/bench/queue?whose=all',
      technician,
      () => testApp.services.bench.queue.queue(technician.actor, { whose: 'all' }),
    ],
    ['Schedule', '/schedule', manager, () => testApp.services.schedule.read(manager.actor)],
  ] as const
  for (const [what, address, { cookie }, read] of reads) {
    const statements = await statementsOf(loginOf(testApp), read)
    const bare = await startBareRoute(testApp.database, () => statements)
    const rates = { product: [] as number[], bare: [] as number[] }
    for (let turn = 0; turn < 5; turn += 1)
      for (const to of ['product', 'bare'] as const) {
        const one: LoadRequest =
          to === 'bare'
            ? { url: bare.url, method: 'POST', headers: { 'content-type': 'application/json' }, body: '{}' }
            : { url: `${testApp.url}${lab.path(address)}`, method: 'GET', headers: { cookie } }
        const { perSecond } = await sendAll(
          Array.from({ length: concurrency }, () => Array.from({ length: 25 }, () => one)),
          concurrency,
        )
        if (turn > 0) rates[to].push(perSecond)
      }
    say(`${what}, of the same SQL`, ratio(mean(rates.product), mean(rates.bare)), 'at least 60 %')
    await bare.app.close()
  }
}

/** 60 specimens: three curves of five contents with four replicates. */
function sixtySpecimens(): CurveInput[] {
  return (
    [
      ['abrasion-loss', '1-hour', 'minimum', '538'],
      ['abrasion-loss', '6-day', 'minimum', '807'],
      ['sand-adhesion', null, 'maximum', '538'],
    ] as const
  ).map(([property, soak, bears, limit], curve) => ({
    key: `${property}-${soak}`,
    label: property,
    property,
    soak,
    bears,
    unit: 'g/m²',
    limit: { value: limit, unit: 'g/m²', sense: 'max', label: property, source: 'made up' },
    points: Array.from({ length: 20 }, (_, index) => {
      const content = 9 + Math.floor(index / 4)
      const y = bears === 'minimum' ? 1300 - content * 70 - (index % 4) * 7 : content * 55 - 150 + (index % 4) * 5
      const id = `${curve}-${index}`
      return {
        testId: id,
        resultId: id,
        xResultId: id,
        code: id,
        label: id,
        mixId: String(content),
        emulsionPercent: String(content),
        x: String(content * 0.626),
        y: String(y),
        flags: [],
      }
    }),
  }))
}

async function measureEvaluation(): Promise<void> {
  const curves = sixtySpecimens()
  const band = { from: '5.5', to: '10.5', source: 'made up' }
  say(
    'A design’s evaluation, 60 specimens',
    milliseconds(await timed(20, async () => acceptableRange({ curves, band, residuePercent: '62.6' }))),
    'under 50 ms',
  )
  const report = sampleReport()
  say('A report with charts, 44 specimens', milliseconds(await timed(5, () => renderReport(report))), 'under 1,000 ms')
}

/** What a running server does by itself within a minute; this cluster is told. */
async function gatherStatistics({ ownerUrl }: TestApp): Promise<void> {
  const owner = await connect(ownerUrl)
  await owner.query('analyze')
  await owner.end()
}

async function measureStarts(): Promise<void> {
  const dataFolder = await mkdtemp(path.join(tmpdir(), 'curebook-bench-'))
  try {
    for (const which of ['First', 'Second']) {
      const start = performance.now()
      const product = await startProduct({ dataFolder, args: [], env: { WEB: 'on', NODE_ENV: 'production' } })
      say(
        `${which} start, demo and pages`,
        `${((performance.now() - start) / 1000).toFixed(1)} s`,
        which === 'First' ? 'none' : 'under 15 s',
      )
      await product.stop()
    }
  } finally {
    await rm(dataFolder, { recursive: true, force: true })
  }
}

async function timed(times: number, work: () => Promise<unknown>): Promise<number[]> {
  await work()
  const taken: number[] = []
  for (let time = 0; time < times; time += 1) {
    const start = performance.now()
    await work()
    taken.push(performance.now() - start)
  }
  return taken
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

const readsOnly = process.argv.includes('--reads-only')
const { cluster, stop } = await startTestCluster()
try {
  const testApp = await startTestApp({ clone: await cloneOf(cluster), now: new Date().toISOString(), sealing: true })
  try {
    const lab = await makeLaboratory(testApp)
    const contents = ['9', '10', '11', '12', '13', '14', '15', '16', '17', '18', '19', '20']
    const { specimens } = await makePlannedDesign(
      testApp,
      lab,
      aSeries({ contents, methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 10, spares: [] }] }),
    )
    await gatherStatistics(testApp)
    process.stdout.write(
      `Node ${process.version}, ${concurrency} requests at a time, a cluster that does not wait for the disk\n`,
    )
    if (!readsOnly) await measurePosting(testApp, lab, specimens)
    await measureReads(testApp, lab)
  } finally {
    await testApp.close()
  }
  if (!readsOnly) await measureEvaluation()
} finally {
  await stop()
}
if (!readsOnly && !process.argv.includes('--without-starts')) await measureStarts()
