import { Worker } from 'node:worker_threads'
import type { ReportToRender } from './report-input.ts'

export type RenderRequest = { readonly id: number; readonly report: ReportToRender }
export type RenderAnswer =
  { readonly id: number; readonly pdf: Uint8Array } | { readonly id: number; readonly failure: string }

type Waiting = { readonly resolve: (pdf: Buffer) => void; readonly reject: (error: Error) => void }
export type ReportRenderer = ReturnType<typeof createReportRenderer>

/**
 * Sets reports in a thread of its own, one after the other; it starts with the first report, keeps no process alive by
 * itself while idle, and starts again after a crash. `close` ends it and refuses what waits.
 */
export function createReportRenderer() {
  const waiting = new Map<number, Waiting>()
  const state: { worker: Worker | null; last: number; closed: boolean } = { worker: null, last: 0, closed: false }

  const settle = (id: number) => {
    const found = waiting.get(id)
    waiting.delete(id)
    if (waiting.size === 0) state.worker?.unref()
    return found
  }
  const failAll = (error: Error) => {
    for (const id of [...waiting.keys()]) settle(id)?.reject(error)
  }
  const start = () => {
    const worker = new Worker(new URL('./render-thread.js', import.meta.url), { execArgv: [] })
    worker.on('message', (answer: RenderAnswer) => {
      const found = settle(answer.id)
      if ('pdf' in answer) found?.resolve(Buffer.from(answer.pdf.buffer, answer.pdf.byteOffset, answer.pdf.byteLength))
      else found?.reject(new Error(`The report could not be set as a PDF. ${answer.failure}`))
    })
    const ended = (reason: string) => {
      if (state.worker !== worker) return
      state.worker = null
      failAll(new Error(`The report could not be set as a PDF: ${reason}.`))
    }
    worker.on('error', (error) => ended(error.message))
    worker.on('exit', (code) => ended(`its thread ended with code ${code}`))
    return worker
  }

  return {
    /** The PDF of a report. Rejects when it cannot be set, or when the renderer is closed. */
    render: (report: ReportToRender): Promise<Buffer> =>
      new Promise((resolve, reject) => {
        if (state.closed) {
          reject(new Error('The report could not be set as a PDF: the server is stopping.'))
          return
        }
        const worker = (state.worker ??= start())
        state.last += 1
        waiting.set(state.last, { resolve, reject })
        worker.ref()
        const request: RenderRequest = { id: state.last, report }
        worker.postMessage(request)
      }),
    close: async (): Promise<void> => {
      const { worker } = state
      state.closed = true
      state.worker = null
      failAll(new Error('The report could not be set as a PDF: the server is stopping.'))
      await worker?.terminate()
    },
  }
}
