import { chartDashes, chartLook } from './chart-looks.ts'
import { axis, type ChartLimit, type ChartModel, type ChartSeries } from './chart-model.ts'
import type { PanelChart } from './panel-tests.ts'

type Limit = PanelChart['limits'][number]

/** Words that a chart of panel tests needs from the reader's catalogue. */
export type TestsChartWords = {
  readonly sentence: string
  readonly decimalSign: '.' | ','
  readonly limit: (limit: Limit) => LimitWords
  /** The acceptance limit inside a limit that has a guard band. */
  readonly accepted: (limit: Limit) => LimitWords
}
type LimitWords = Required<Pick<ChartLimit, 'label' | 'short'>>

/**
 * The chart of tests beside the series: a line for each test that has a course, else a cloud of single points. Several
 * lines bear their names at their ends. A limit with a guard band is drawn with its acceptance limit, each named.
 */
export function chartOfTests(chart: PanelChart, words: TestsChartWords): ChartModel {
  const own = ownWords(chart.lines.map(({ label }) => label))
  const series = chart.lines.map(({ key, label, points }, index): ChartSeries => {
    const joined = isCourse(points)
    const drawn = points.map(({ testId, code, x, y }, place) => ({
      key: joined ? `${testId} ${place}` : testId,
      ...{ x: Number(x), y: Number(y), xDigits: x, yDigits: y, label: code, flags: [] },
    }))
    const course = joined
      ? drawn.map(({ key: of, x, y, xDigits, yDigits }) => ({ key: of, x, y, xDigits, yDigits, n: 1, spread: null }))
      : []
    const means = course.sort((a, b) => a.x - b.x)
    const name = joined ? points[0]?.code : own[index]
    return {
      ...{ key, label, points: drawn, excluded: [], means, drawnAs: joined ? 'course' : 'points' },
      ...chartLook(index),
      ...(chart.lines.length > 1 && name !== undefined ? { tag: name } : {}),
    }
  })
  const limits = limitLines(chart.limits, words)
  const drawn = series.flatMap(({ points }) => points)
  const xs = withRoom(drawn.map(({ x }) => x))
  const ys = [0, ...drawn.map(({ y }) => y), ...limits.map(({ at }) => at)]
  return {
    title: chart.title,
    sentence: words.sentence,
    x: axis(chart.x.label, chart.x.unit, xs, words.decimalSign),
    y: axis(chart.y.label, chart.y.unit, ys, words.decimalSign),
    series,
    limits,
    bands: [],
  }
}

/** Every end of every limit, and of its acceptance limit; what is told apart by words has another dash as well. */
function limitLines(limits: readonly Limit[], words: TestsChartWords): ChartLimit[] {
  const lines = limits.flatMap((limit) => {
    const { key, accepted } = limit
    const ends = [limit.value, limit.upper]
    const ofLimit = { key, ...words.limit(limit), labelAt: 'end' as const, ends, sides: ['above', 'above'] as Sides }
    if (accepted === null) return [ofLimit]
    // The two may lie close together: each is named on the side away from the other.
    const outside: Sides = limit.upper === null && limit.sense === 'max' ? ['above', 'above'] : ['below', 'above']
    const inside: Sides = limit.upper === null && limit.sense === 'max' ? ['below', 'below'] : ['above', 'below']
    const acceptance = { key: `${key} accepted`, ...words.accepted(limit), labelAt: 'start' as const, sides: inside }
    return [
      { ...ofLimit, sides: outside },
      { ...acceptance, ends: [accepted.value, accepted.upper] },
    ]
  })
  return lines.flatMap(({ key, ends, sides, ...line }, index) =>
    ends.flatMap((end, place): ChartLimit[] => {
      const dash = chartDashes[index % chartDashes.length]!
      const drawn = { ...line, key: `${key} ${place}`, axis: 'y', dash, labelSide: sides[place]! } as const
      return end === null ? [] : [{ ...drawn, at: Number(end) }]
    }),
  )
}

type Sides = readonly [lower: 'above' | 'below', upper: 'above' | 'below']

/** What each name does not share with the others at its end: "Lateral displacement", "Vertical displacement" → "Lateral", "Vertical". */
function ownWords(labels: readonly string[]): readonly string[] {
  const split = labels.map((label) => label.split(' '))
  const [first = []] = split
  const shortest = Math.min(...split.map(({ length }) => length))
  let shared = 0
  while (shared < shortest - 1 && split.every((words) => words.at(-1 - shared) === first.at(-1 - shared))) shared += 1
  return split.map((words) => words.slice(0, words.length - shared).join(' '))
}

/** A twentieth of the span to either side, not below zero, so that no mark stands on the frame. */
function withRoom(values: readonly number[]): readonly number[] {
  const [low, high] = [Math.min(...values), Math.max(...values)]
  const room = (high - low) / 20
  return [low >= 0 ? Math.max(0, low - room) : low - room, high + room]
}

/** Several points of one test are its course over the axis; of several tests they are not joined. */
function isCourse(points: PanelChart['lines'][number]['points']): boolean {
  return points.length > 1 && points.every(({ testId }) => testId === points[0]?.testId)
}
