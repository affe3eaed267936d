import { parentPort } from 'node:worker_threads'
import type { ReportToRender } from './report-input.ts'
import type { RenderAnswer, RenderRequest } from './report-renderer.ts'
import { renderReport } from './render-report.ts'

/** Sets one report after the other, away from the event loop that serves the bench. */
parentPort?.on('message', async ({ id, report }: RenderRequest) => {
  parentPort?.postMessage(await answer(id, report))
})

async function answer(id: number, report: ReportToRender): Promise<RenderAnswer> {
  try {
    return { id, pdf: await renderReport(report) }
  } catch (error) {
    return { id, failure: error instanceof Error ? (error.stack ?? error.message) : String(error) }
  }
}
