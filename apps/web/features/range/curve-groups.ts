import type { ChartBand } from '@curebook/contract/chart-model'
import type { Curve, ExcludedPoint, RangeView } from '@curebook/contract/range'
import { decimal } from '@curebook/trade/quantity/decimal'

/** Curves that can share a chart: one property in one unit; those without a single result are left out. */
export function curveGroups(curves: readonly Curve[]): readonly (readonly Curve[])[] {
  const groups = new Map<string, Curve[]>()
  for (const curve of curves) {
    if (curve.points.length + curve.excluded.length === 0) continue
    const key = `${curve.property} ${curve.unit}`
    groups.set(key, [...(groups.get(key) ?? []), curve])
  }
  return [...groups.values()]
}

const wordedProperties = ['abrasion-loss', 'sand-adhesion', 'wearing'] as const

/** The property of a chart where this page has a word for it; the curve's own label says it otherwise. */
export const wordedProperty = (property: string | undefined) => wordedProperties.find((one) => one === property)

/** The acceptable range as a band of the chart: only between two ends that stand, and only where a range is. */
export function bandOf(
  { minimum, maximum }: Pick<RangeView, 'minimum' | 'maximum'>,
  label: string,
): readonly ChartBand[] {
  const [from, to] = [minimum.residualPercent, maximum.residualPercent]
  if (from === null || to === null || decimal(from).gt(to)) return []
  return [{ key: 'range', from: Number(from), to: Number(to), label }]
}

export type StatisticsRow = { readonly key: string; readonly curve: Curve; readonly mean: Curve['means'][number] }

/** The means of all curves by content, from lean to rich, in tables of one unit each. */
export function statisticsByUnit(
  curves: readonly Curve[],
): readonly { readonly unit: string; readonly rows: readonly StatisticsRow[] }[] {
  const units = [...new Set(curves.filter(({ means }) => means.length > 0).map(({ unit }) => unit))]
  return units.map((unit) => ({
    unit,
    rows: curves
      .filter((curve) => curve.unit === unit)
      .flatMap((curve) => curve.means.map((mean) => ({ key: `${curve.key} ${mean.mixId}`, curve, mean })))
      .sort((a, b) => decimal(a.mean.emulsionPercent).cmp(decimal(b.mean.emulsionPercent))),
  }))
}

export type PointRow = {
  readonly key: string
  readonly curve: Curve
  readonly point: Curve['points'][number] | ExcludedPoint
}

/** Every result of every curve, those that do not count after those of their curve that do. */
export function pointRows(curves: readonly Curve[]): readonly PointRow[] {
  return curves.flatMap((curve) =>
    [...curve.points, ...curve.excluded].map((point) => ({ key: `${curve.key} ${point.testId}`, curve, point })),
  )
}

export type ExcludedMeanRow = {
  readonly key: string
  readonly curve: Curve
  readonly mean: Curve['meansWithExcluded'][number]
}

/** Contents at which a result does not count, with both their means. */
export function excludedMeanRows(curves: readonly Curve[]): readonly ExcludedMeanRow[] {
  return curves.flatMap((curve) =>
    curve.meansWithExcluded.map((mean) => ({ key: `${curve.key} ${mean.mixId}`, curve, mean })),
  )
}
