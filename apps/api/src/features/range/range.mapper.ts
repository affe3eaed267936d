import type { Design } from '@curebook/contract/designs'
import type { PanelResult } from '@curebook/contract/panel-results'
import type { Curve as CurveView, ExcludedPoint, RangeEnd as RangeEndView, RangeView } from '@curebook/contract/range'
import type { RangeEnd } from '@curebook/trade/design/acceptable-range'
import type { Curve } from '@curebook/trade/design/curve'
import { meansWithExcluded } from '@curebook/trade/design/excluded-results'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { DecimalSign } from '@curebook/trade/quantity/display'
import { isEntered, unitsFor } from '@curebook/trade/specification/enterable'
import type { Specification } from '@curebook/trade/specification/specification'
import { toCalculation } from './calculation-view.ts'
import type { DesignRange } from './design-range.ts'
import { type JudgedContent, panelOf } from './range-panel.ts'

/** The range as screens and reports show it. `content` is the recommended one; null while none is. */
export function toRangeView(
  { range, band, methodOf, excludedOf }: DesignRange,
  {
    design,
    rules,
    content,
    sign,
    entered,
    methods,
  }: {
    design: Design
    rules: Specification
    content: JudgedContent | null
    sign: DecimalSign
    entered: readonly PanelResult[]
    methods: readonly MethodDeclaration[]
  },
): RangeView {
  const panel = panelOf(range.curves, { rules, content, sign, entered })
  return {
    designId: design.id,
    revisionId: design.revisionId,
    residue: design.residue && {
      value: design.residue.value,
      unit: design.residue.unit,
      source: design.residue.source,
    },
    basis: '% of dry aggregate',
    curves: range.curves.map((curve) =>
      toCurve(curve, methodOf[curve.key] ?? null, excludedOf[curve.key] ?? [], range.flags),
    ),
    minimum: toEnd(range.ends.minimum),
    maximum: toEnd(range.ends.maximum),
    midpoint: range.midpoint
      ? {
          residualPercent: range.midpoint.value,
          emulsionPercent: range.midpoint.emulsionPercent ?? null,
          calculation: toCalculation(range.midpoint.calculation),
        }
      : null,
    testedSpan: range.testedSpan && { from: range.testedSpan.from, to: range.testedSpan.to },
    band: { ...band },
    sentence: range.sentence,
    comparison: range.comparison,
    flags: range.flags.map(({ key, sentence }) => ({ key, sentence })),
    panel: panel.rows,
    enterable: rules.limits.flatMap((limit) =>
      isEntered(limit, methods) ? [{ key: limit.key, units: [...unitsFor(limit.unit)] }] : [],
    ),
    overall: panel.sentence,
  }
}

function toCurve(
  curve: Curve,
  methodKey: string | null,
  excluded: readonly ExcludedPoint[],
  flags: DesignRange['range']['flags'],
): CurveView {
  return {
    key: curve.key,
    methodKey: methodKey ?? '',
    property: curve.property,
    soak: curve.soak,
    label: curve.label,
    unit: curve.unit,
    sense: curve.limit?.sense ?? 'max',
    limit: curve.limit && {
      value: curve.limit.value,
      unit: curve.limit.unit,
      label: curve.limit.label,
      source: curve.limit.source,
    },
    points: curve.points.map(({ xResultId: _, flags: own, ...point }) => ({ ...point, flags: [...own] })),
    means: curve.means.map(({ mixId, emulsionPercent, x, y, n, standardDeviation, range }) => ({
      mixId,
      emulsionPercent,
      x,
      y,
      n,
      standardDeviation,
      range: n > 1 ? range : null,
    })),
    excluded: [...excluded],
    meansWithExcluded: meansWithExcluded(curve, excluded).map(({ calculation, ...mean }) => ({
      ...mean,
      calculation: toCalculation(calculation),
    })),
    crossing: curve.crossing?.x ?? null,
    flags: flags.filter(({ curveKey }) => curveKey === curve.key).map(({ key, sentence }) => ({ key, sentence })),
  }
}

function toEnd(end: RangeEnd): RangeEndView {
  return {
    kind: end.kind,
    residualPercent: end.value ?? null,
    emulsionPercent: end.emulsionPercent ?? null,
    setBy: end.setBy.words,
    sentence: end.sentence,
    calculation: end.calculation ? toCalculation(end.calculation) : null,
  }
}
