import { acceptableRange } from '@curebook/trade/design/acceptable-range'
import type { CurveInput } from '@curebook/trade/design/curve'
import { renderReport } from '../../apps/api/src/features/reports/render/render-report.ts'
import { sampleReport } from '../../apps/api/src/features/reports/render/sample-content.ts'
import { milliseconds, say } from './say.ts'

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

/** A whole evaluation and a report, without any server. */
export async function measureEvaluation(): Promise<void> {
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
