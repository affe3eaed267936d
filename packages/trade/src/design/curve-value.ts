import type { Calculation } from '../procedure/calculation.ts'
import { createCalculation } from '../procedure/calculation-builder.ts'
import { decimal } from '../quantity/decimal.ts'
import { meanLines } from './crossing-calculation.ts'
import type { Curve, CurveMean } from './curve.ts'

export type CurveValue = {
  readonly value: string
  readonly unit: string
  /** Replicates behind it: of the content, or the smaller number of the two between which it lies. */
  readonly n: number
  /** The mean of one content, or read off the line between two. */
  readonly kind: 'mean' | 'line'
  /** Targets of the contents it rests on, emulsion in % of dry aggregate. */
  readonly emulsionPercents: readonly string[]
  readonly calculation: Calculation
}

/**
 * What a curve says at a content: the mean of that content where it was made, else the line between its neighbours.
 * Undefined outside the contents tested.
 * @param content emulsion (target, % of dry aggregate) and the residual binder that it stands for
 */
export function curveValueAt(
  curve: Pick<Curve, 'label' | 'means' | 'unit'>,
  content: { readonly emulsionPercent: string; readonly residualPercent: string },
  xUnit = '% of dry aggregate',
): CurveValue | undefined {
  const made = curve.means.find(({ emulsionPercent }) => decimal(emulsionPercent).eq(content.emulsionPercent))
  if (made) return meanOf(curve, made)
  const on = curve.means.find(({ x }) => decimal(x).eq(content.residualPercent))
  if (on) return meanOf(curve, on)
  const index = curve.means.findIndex(({ x }) => decimal(x).gt(content.residualPercent))
  const lean = curve.means[index - 1]
  const rich = curve.means[index]
  return lean && rich ? between(curve, lean, rich, content.residualPercent, xUnit) : undefined
}

function meanOf({ label, unit }: Pick<Curve, 'label' | 'unit'>, mean: CurveMean): CurveValue {
  const work = createCalculation()
  mean.points.forEach((point, index) => {
    const text = { symbol: `y${index + 1}`, name: `${label}, ${point.label}`, unit, source: 'result of the specimen' }
    work.input(text, point.y, { kind: 'result', id: point.resultId })
  })
  const name = `Mean at ${mean.emulsionPercent} % emulsion`
  const symbols = mean.points.map((_, index) => `y${index + 1}`)
  work.mean({ symbol: 'Y', name, unit, source: 'arithmetic mean of the replicates' }, ...symbols)
  const calculation = work.calculation()
  const emulsionPercents = [mean.emulsionPercent]
  return { value: mean.y, unit, n: mean.n, kind: 'mean', emulsionPercents, calculation }
}

function between(
  { label, unit }: Pick<Curve, 'label' | 'unit'>,
  lean: CurveMean,
  rich: CurveMean,
  x: string,
  xUnit: string,
): CurveValue {
  const work = createCalculation()
  const curve = { label, unit }
  meanLines(work, 'a', lean, curve, xUnit)
  meanLines(work, 'b', rich, curve, xUnit)
  work.input({ symbol: 'P', name: 'Content', unit: xUnit, source: 'recommended content' }, x, { kind: 'constant' })
  const text = { symbol: 'Y', name: `${label} at this content`, unit, source: 'linear interpolation' }
  work.interpolate(text, 'P', 'Xa', 'Ya', 'Xb', 'Yb')
  const calculation = work.calculation()
  return {
    value: calculation.lines.at(-1)?.value ?? '',
    unit,
    n: Math.min(lean.n, rich.n),
    kind: 'line',
    emulsionPercents: [lean.emulsionPercent, rich.emulsionPercent],
    calculation,
  }
}
