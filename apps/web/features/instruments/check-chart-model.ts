import type { CheckChart } from '@curebook/contract/check-charts'
import type { ChartDash } from '@curebook/contract/chart-looks'
import { axis, type ChartLimit, type ChartModel } from '@curebook/contract/chart-model'

/** Words that the two charts need from the reader's catalogue. */
export type CheckChartWords = {
  readonly individuals: { readonly title: string; readonly sentence: string }
  readonly ranges: { readonly title: string; readonly sentence: string }
  readonly series: string
  readonly difference: string
  readonly order: string
  readonly orderUnit: string
  readonly checked: string
  readonly decimalSign: '.' | ','
  readonly at: (instant: string) => string
  readonly limit: (which: 'centre' | 'lower' | 'upper', digits: string) => string
}

type Drawn = { readonly id: string; readonly place: number; readonly y: string; readonly label: string }

/** Decimals to write: as many as were read, and for limits one more. */
export function decimalsOf({ points }: Pick<CheckChart, 'points'>): number {
  return Math.max(...points.map(({ value }) => value.split('.')[1]?.length ?? 0))
}

/** Individuals above, their moving ranges below, check by check from the oldest on; empty without limits. */
export function chartsOfChecks(chart: CheckChart, words: CheckChartWords): readonly ChartModel[] {
  const { limits, points, unit } = chart
  if (limits === null) return []
  const yDecimals = decimalsOf(chart)
  const flags = new Map(points.map(({ id, signals }) => [id, signals]))
  const modelOf = (
    { title, sentence }: CheckChartWords['individuals'],
    label: string,
    drawn: readonly Drawn[],
    lines: readonly ChartLimit[],
    zero: readonly number[],
  ): ChartModel => {
    const series = drawn.map(({ id, place, y, label: name }) => ({
      ...{ key: id, x: place, y: Number(y), xDigits: String(place), yDigits: y, label: name },
      flags: zero.length > 0 ? [] : (flags.get(id) ?? []),
    }))
    const ys = withRoom([...zero, ...series.map(({ y }) => y), ...lines.map(({ at }) => at)], zero.length > 0)
    return {
      ...{ title, sentence, limits: lines, bands: [] },
      x: { ...axis(words.order, words.orderUnit, [0, points.length + 1], words.decimalSign), begins: null },
      y: axis(label, unit, ys, words.decimalSign),
      series: [
        {
          ...{ key: title, label, mark: 'circle', dash: 'solid', tone: 1, drawnAs: 'course', excluded: [] },
          points: series,
          means: series.map(({ key, x, y, xDigits, yDigits }) => ({ key, x, y, xDigits, yDigits, n: 1, spread: null })),
        },
      ],
      pointsAs: { head: words.checked, yDecimals },
    }
  }
  const lineOf = (which: 'centre' | 'lower' | 'upper', digits: string): ChartLimit => {
    const dash: ChartDash = which === 'centre' ? 'dotted' : 'dashed'
    return { key: which, axis: 'y', at: Number(digits), label: words.limit(which, digits), labelAt: 'start', dash }
  }
  const { individuals, movingRange } = limits
  const drawn = points.map(({ id, value, checkedAt }, at) => ({
    id,
    place: at + 1,
    y: value,
    label: words.at(checkedAt),
  }))
  const ranges = points.flatMap(({ id, movingRange: y, checkedAt }, at) =>
    y === null ? [] : [{ id, place: at + 1, y, label: words.at(checkedAt) }],
  )
  return [
    modelOf(
      words.individuals,
      words.series,
      drawn,
      (['lower', 'centre', 'upper'] as const).map((which) => lineOf(which, individuals[which])),
      [],
    ),
    modelOf(
      words.ranges,
      words.difference,
      ranges,
      (['centre', 'upper'] as const).map((which) => lineOf(which, movingRange[which])),
      [0],
    ),
  ]
}

/** A twentieth of the span beyond what is drawn, so that no mark stands on the frame; below it only where it is not 0. */
function withRoom(values: readonly number[], fromZero: boolean): readonly number[] {
  const [low, high] = [Math.min(...values), Math.max(...values)]
  const room = (high - low) / 20
  return [fromZero ? low : low - room, high + room]
}
