import { type ChartDash, type ChartLook, chartLook } from './chart-looks.ts'
import type { Curve, ExcludedPoint } from './range.ts'

/**
 * A chart as data, drawn by the screen and by the printed report alike: what stands here is what both show. Coordinates
 * are doubles for drawing; digits beside them are what a reader may quote.
 */
export type ChartAxis = {
  readonly label: string
  readonly unit: string
  /** From low to high; nothing drawn lies outside. */
  readonly domain: readonly [number, number]
  readonly ticks: readonly ChartTick[]
  /** Where the axis begins, as on its first tick, when that is not zero: it then bears a break mark, and its title says so. */
  readonly begins: string | null
}
export type ChartTick = { readonly at: number; readonly label: string }

export type ChartPoint = {
  readonly key: string
  readonly x: number
  readonly y: number
  readonly xDigits: string
  readonly yDigits: string
  /** Short code, as on the specimen. */
  readonly label: string
  /** What a reader must know of it; a point with flags is drawn hollow. */
  readonly flags: readonly string[]
}
export type ChartMean = {
  readonly key: string
  readonly x: number
  readonly y: number
  readonly xDigits: string
  readonly yDigits: string
  readonly n: number
  readonly spread: string | null
}
export type ChartSeries = ChartLook & {
  readonly key: string
  readonly label: string
  /** Short name that stands beside its end; left out where the legend is enough. */
  readonly tag?: string
  readonly points: readonly ChartPoint[]
  /** Results in no mean and no line, each flagged with why: drawn crossed out. */
  readonly excluded: readonly ChartPoint[]
  /** Joined by straight lines in order of x: nothing is drawn beyond the first and last. */
  readonly means: readonly ChartMean[]
  /** The course of one test, its points joined, or points that nothing joins; left out: means, joined. */
  readonly drawnAs?: 'course' | 'points'
}
/**
 * A line across the chart; `axis` is the one whose value it holds. Its label stands on the line, at the end named by
 * `labelAt`, and above it unless `labelSide` says otherwise; `short` is for a drawing too narrow for it.
 */
export type ChartLimit = {
  readonly key: string
  readonly axis: 'x' | 'y'
  readonly at: number
  readonly label: string
  readonly short?: string
  readonly labelAt: 'start' | 'end'
  readonly labelSide?: 'above' | 'below'
  readonly dash: ChartDash
}
/** A span of x that is marked as meeting the limits. */
export type ChartBand = { readonly key: string; readonly from: number; readonly to: number; readonly label: string }

export type ChartModel = {
  readonly title: string
  /** What the chart says, in one sentence. */
  readonly sentence: string
  readonly x: ChartAxis
  readonly y: ChartAxis
  readonly series: readonly ChartSeries[]
  readonly limits: readonly ChartLimit[]
  readonly bands: readonly ChartBand[]
  /** How points are called and written where they are no specimens; left out: a specimen's code, two decimals of x, one of y. */
  readonly pointsAs?: { readonly head: string; readonly yDecimals: number }
}

/** Words that a curve's chart needs from the reader's catalogue. */
export type CurveChartWords = {
  readonly title: string
  readonly sentence: string
  readonly xLabel: string
  readonly xUnit: string
  readonly yLabel: string
  readonly decimalSign: '.' | ','
  /** Why a result does not count, with reason and person. */
  readonly excluded: (point: ExcludedPoint) => string
  /** The limit itself, where the curve is held to its acceptance limit inside it. */
  readonly held: (curve: Curve) => string
}

/**
 * The chart of one or more curves that share a unit: every point, the means joined, the limits on their lines, and the
 * acceptable range as a band. The y axis begins at zero, so that heights compare.
 */
export function chartOfCurves(
  curves: readonly Curve[],
  bands: readonly ChartBand[],
  words: CurveChartWords,
): ChartModel {
  const series = curves.map((curve, index) => seriesOf(curve, chartLook(index), words))
  const limits = curves.flatMap((curve, index) => limitsOf(curve, series, chartLook(index).dash, words))
  const drawn = series.flatMap(({ points, excluded, means }) => [...points, ...excluded, ...means])
  const xs = [...drawn.map(({ x }) => x), ...bands.flatMap(({ from, to }) => [from, to])]
  const ys = [...drawn.map(({ y }) => y), ...limits.map(({ at }) => at)]
  return {
    title: words.title,
    sentence: words.sentence,
    x: axis(words.xLabel, words.xUnit, xs, words.decimalSign),
    y: axis(words.yLabel, curves[0]?.unit ?? '', [0, ...ys], words.decimalSign),
    series,
    limits,
    bands,
  }
}

function seriesOf(curve: Curve, look: ChartLook, words: CurveChartWords): ChartSeries {
  const pointOf = ({ testId, code, x, y }: ExcludedPoint | Curve['points'][number], flags: readonly string[]) => ({
    key: testId,
    x: Number(x),
    y: Number(y),
    xDigits: x,
    yDigits: y,
    label: code,
    flags,
  })
  return {
    key: curve.key,
    label: curve.label,
    ...look,
    points: curve.points.map((point) => pointOf(point, point.flags)),
    excluded: curve.excluded.map((point) => pointOf(point, [words.excluded(point)])),
    means: curve.means
      .map(({ mixId, x, y, n, standardDeviation }) => ({
        key: mixId,
        x: Number(x),
        y: Number(y),
        xDigits: x,
        yDigits: y,
        n,
        spread: standardDeviation,
      }))
      .sort((a, b) => a.x - b.x),
  }
}

/** What the curve is held to and, under a guard band, the limit outside it. Labels go to the end that the curves avoid. */
function limitsOf(
  curve: Curve,
  series: readonly ChartSeries[],
  dash: ChartDash,
  words: CurveChartWords,
): readonly ChartLimit[] {
  const { key, limit } = curve
  if (limit === null) return []
  const at = Number(limit.value)
  const distanceAt = (index: number) =>
    Math.min(...series.map(({ means }) => Math.abs((means.at(index)?.y ?? Infinity) - at)))
  const labelAt = distanceAt(0) > distanceAt(-1) ? 'start' : 'end'
  const line: ChartLimit = { key, axis: 'y', at, label: limit.label, labelAt, dash }
  if (limit.guarded === null) return [line]
  const held = { key: `${key} held`, at: Number(limit.guarded.held), label: words.held(curve) }
  return [line, { ...line, ...held, labelAt: labelAt === 'start' ? 'end' : 'start', dash: 'dash-dot-dot' }]
}

/** An axis whose ticks enclose the values. */
export function axis(label: string, unit: string, values: readonly number[], decimalSign: '.' | ','): ChartAxis {
  const [low, high] = [Math.min(...values), Math.max(...values)]
  // A single place stands in the middle, with a tenth of it to either side.
  const beside = low === high ? Math.abs(low) / 10 : 0
  const ticks = niceTicks(low - beside, high + beside, 6, decimalSign)
  const [first] = ticks
  return {
    label,
    unit,
    ticks,
    domain: [first?.at ?? 0, ticks.at(-1)?.at ?? 1],
    begins: first === undefined || first.at === 0 ? null : first.label,
  }
}

/** Round numbers (1, 2 or 5 times a power of ten) that enclose the span, about `count` of them. */
export function niceTicks(
  low: number,
  high: number,
  count: number,
  decimalSign: '.' | ',' = '.',
): readonly ChartTick[] {
  if (!Number.isFinite(low) || !Number.isFinite(high)) return [0, 1].map((at) => ({ at, label: String(at) }))
  const span = high > low ? high - low : Math.max(Math.abs(high), 1)
  const rough = span / count
  const power = Math.floor(Math.log10(rough))
  const base = 10 ** power
  const step = ([1, 2, 5, 10].find((factor) => factor * base >= rough) ?? 10) * base
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9))
  const [first, last] = [Math.floor(low / step + 1e-9), Math.ceil((high > low ? high : low + span) / step - 1e-9)]
  return Array.from({ length: last - first + 1 }, (_, index) => {
    const label = ((first + index) * step).toLocaleString('en', {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
      useGrouping: false,
    })
    return { at: Number(label), label: label.replace('.', decimalSign).replace('-', '−') }
  })
}
