import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { startTestApp } from '../support/app.ts'
import { connect } from '../support/as-login.ts'
import { cloneOf } from '../support/database.ts'
import { aSeries, makePlannedDesign } from '../support/factories/design.ts'
import { makeLaboratory } from '../support/factories/laboratory.ts'
import { makeTestedDesign } from '../support/factories/tested-design.ts'
import { startProduct } from '../support/product.ts'
import { startTestCluster } from '../support/test-cluster.ts'
import { fillWithReadings } from './many-readings.ts'
import { measureEvaluation } from './measure-evaluation.ts'
import { measureBenchPage, measureFirstLoads } from './measure-pages.ts'
import { measurePosting } from './measure-posting.ts'
import { measureReads, sayGrowth } from './measure-reads.ts'
import { concurrency } from './requests.ts'
import { say } from './say.ts'

// `npm run bench`: measures against the targets of the design and prints; nothing is asserted. `--without-starts` leaves out
// the two starts of the product and its pages, which take minutes on a slow machine; `--reads-only` measures the reads alone,
// `--pages-only` the starts and pages alone.

const manyReadings = 100_000

/** On a laboratory with little in it, and on the same one with years of work. */
async function measureServer(readsOnly: boolean): Promise<void> {
  const { cluster, stop } = await startTestCluster()
  try {
    const testApp = await startTestApp({ clone: await cloneOf(cluster), now: new Date().toISOString(), sealing: true })
    const owner = await connect(testApp.ownerUrl)
    try {
      const lab = await makeLaboratory(testApp)
      const { design: worked } = await makeTestedDesign(testApp, lab)
      const contents = ['9', '10', '11', '12', '13', '14', '15', '16', '17', '18', '19', '20']
      const series = { contents, methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 10, spares: [] }] }
      const { specimens } = await makePlannedDesign(testApp, lab, aSeries(series))
      const own = { labId: lab.labId, designId: worked.id }
      const few = await fillWithReadings(owner, { ...own, readings: 0 })
      process.stdout.write(
        `Node ${process.version}, ${concurrency} requests at a time, a cluster that does not wait for the disk\n`,
      )
      const before = await measureReads(testApp, lab, { designId: worked.id, many: few })
      const many = await fillWithReadings(owner, { ...own, readings: manyReadings })
      const after = await measureReads(testApp, lab, { designId: worked.id, many })
      sayGrowth(before, after)
      if (!readsOnly) await measurePosting(testApp, lab, specimens)
    } finally {
      await owner.end()
      await testApp.close()
    }
  } finally {
    await stop()
  }
}

/** The product as a person starts it, with its demonstration laboratory and its pages. */
async function measureProduct(): Promise<void> {
  const dataFolder = await mkdtemp(path.join(tmpdir(), 'curebook-bench-'))
  try {
    for (const which of ['First', 'Second']) {
      const start = performance.now()
      const product = await startProduct({ dataFolder, args: [], env: { WEB: 'on', NODE_ENV: 'production' } })
      const seconds = ((performance.now() - start) / 1000).toFixed(1)
      say(`${which} start, demo and pages`, `${seconds} s`, which === 'First' ? 'none' : 'under 15 s')
      if (which === 'Second') {
        await measureFirstLoads()
        await measureBenchPage(product.url)
      }
      await product.stop()
    }
  } finally {
    await rm(dataFolder, { recursive: true, force: true })
  }
}

const readsOnly = process.argv.includes('--reads-only')
const pagesOnly = process.argv.includes('--pages-only')
if (!pagesOnly) await measureServer(readsOnly)
if (!readsOnly && !pagesOnly) await measureEvaluation()
if (!readsOnly && !process.argv.includes('--without-starts')) await measureProduct()
