import { expect, describe, test } from 'vitest'
import { chartOfTests } from './chart-of-tests.ts'
import type { PanelChart } from './panel-tests.ts'

type Limit = PanelChart['limits'][number]
const words = {
  sentence: '',
  decimalSign: '.',
  limit: ({ label }: Limit) => ({ label, short: label }),
  accepted: ({ label }: Limit) => ({ label: `${label}, accepted`, short: label }),
} as const

describe('a chart of tests beside the series', () => {
  const point = (testId: string, x: string, y: string) => ({ testId, code: testId, x, y })
  const axes = {
    ...{ key: 'k', title: 'Torque over time' },
    ...{ x: { label: 'After casting', unit: 'min' }, y: { label: 'Torque', unit: 'kg·cm' } },
  }
  const chart = (lines: readonly (readonly ReturnType<typeof point>[])[]) =>
    chartOfTests(
      {
        ...axes,
        limits: [],
        lines: lines.map((points, index) => ({ key: `line ${index}`, label: `Line ${index}`, points: [...points] })),
      },
      words,
    )

  test('joins the course of one test and leaves tests apart, and says so', () => {
    const course = [point('a', '30', '12.5'), point('a', '60', '20.5')]
    const { series } = chart([course, [point('b', '25', '170'), point('c', '35', '128')]])
    expect(series.map(({ drawnAs, means }) => [drawnAs, means.length])).toEqual([
      ['course', 2],
      ['points', 0],
    ])
  })
  test('keeps every mark off the frame, and a single content in the middle', () => {
    const { x } = chart([[point('a', '20', '9'), point('a', '120', '23')]])
    expect(x.domain).toEqual([0, 140])
    const one = chart([[point('a', '12', '2.5'), point('b', '12', '2.8')]]).x
    expect(one.domain).toEqual([10.5, 13.5])
  })

  test('names every line at its end, and tells 21 courses apart by mark and dash', () => {
    const { series } = chart(
      Array.from({ length: 21 }, (_, at) => [30, 60].map((x) => point(`r${at}`, String(x), '20'))),
    )
    expect(series.map(({ tag }) => tag)).toEqual(Array.from({ length: 21 }, (_, at) => `r${at}`))
    expect(new Set(series.map(({ mark, dash }) => `${mark} ${dash}`)).size).toBe(21)
    expect(chart([[point('a', '20', '9')]]).series[0]).not.toHaveProperty('tag')
  })
  test('several clouds bear what their names do not share', () => {
    const lines = ['Lateral displacement', 'Vertical displacement'].map((label) => ({
      ...{ key: label, label },
      points: [point('a', '12', '2.5'), point('b', '12', '2.8')],
    }))
    const { series } = chartOfTests({ ...axes, limits: [], lines }, words)
    expect(series.map(({ tag }) => tag)).toEqual(['Lateral', 'Vertical'])
  })
  test('draws the limit and, under a guard band, the acceptance limit, each named and with a dash of its own', () => {
    const held = { key: 'cohesion', label: 'at least 12', value: '12', upper: null, unit: 'kg·cm', sense: 'min' }
    const between = { ...held, key: 'both', label: '10 to 30', value: '10', upper: '30', sense: 'between' }
    const lines = [{ key: 'a', label: 'A', points: [point('a', '30', '13')] }]
    const { limits, y } = chartOfTests(
      {
        ...axes,
        lines,
        limits: [
          { ...held, accepted: { value: '13.5', upper: null } },
          { ...between, accepted: { value: '11.5', upper: '28.5' } },
          { ...held, key: 'plain', label: 'at least 20', value: '20', accepted: null },
        ],
      },
      words,
    )
    expect(limits.map(({ at, label, labelAt, labelSide }) => [at, label, labelAt, labelSide])).toEqual([
      [12, 'at least 12', 'end', 'below'],
      [13.5, 'at least 12, accepted', 'start', 'above'],
      [10, '10 to 30', 'end', 'below'],
      [30, '10 to 30', 'end', 'above'],
      [11.5, '10 to 30, accepted', 'start', 'above'],
      [28.5, '10 to 30, accepted', 'start', 'below'],
      [20, 'at least 20', 'end', 'above'],
    ])
    expect(new Set(limits.map(({ label, dash }) => `${label} ${dash}`)).size).toBe(5)
    expect(new Set(limits.map(({ dash }) => dash)).size).toBe(5)
    expect(y.domain[1]).toBeGreaterThanOrEqual(30)
  })
})
