import { afterEach, expect, test, vi } from 'vitest'
import { renderReport } from './render-report.ts'
import { createReportRenderer } from './report-renderer.ts'
import { sampleReport } from './sample-content.ts'

// A thread starts its own loader, which takes its time on a busy machine.
vi.setConfig({ testTimeout: 120_000 })

const renderer = createReportRenderer()
const closing = createReportRenderer()
afterEach(async () => {
  await closing.close()
})

test('a report set in the thread is the same bytes, also after one that could not be set', async () => {
  const impossible = sampleReport({ report: { madeAt: 'never' } })
  const [failed, first, second] = await Promise.allSettled([
    renderer.render(impossible),
    renderer.render(sampleReport()),
    renderer.render(sampleReport({ report: { number: 'THS-2026-015' } })),
  ])
  const expected = await renderReport(sampleReport())
  await renderer.close()
  expect(failed).toMatchObject({
    status: 'rejected',
    reason: { message: expect.stringContaining('could not be set as a PDF') },
  })
  expect(first.status === 'fulfilled' && first.value.equals(expected)).toBe(true)
  expect(second.status === 'fulfilled' && second.value.equals(expected)).toBe(false)
})

test('closing refuses what waits and what comes later', async () => {
  const waiting = closing.render(sampleReport())
  const refused = expect(waiting).rejects.toThrow('the server is stopping')
  await closing.close()
  await refused
  await expect(closing.render(sampleReport())).rejects.toThrow('the server is stopping')
})
