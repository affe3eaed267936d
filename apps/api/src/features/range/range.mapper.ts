import type { Design } from '@curebook/contract/designs'
import { type Gradation, gradationLabel } from '@curebook/contract/gradations'
import { gradationVerdict } from '@curebook/contract/gradation-verdict'
import type { PanelResult } from '@curebook/contract/panel-results'
import type { AskedCount } from '@curebook/contract/panel-tests'
import type {
  Curve as CurveView,
  ExcludedPoint,
  GradationCheck,
  PanelRow,
  RangeEnd as RangeEndView,
  RangeView,
} from '@curebook/contract/range'
import type { RangeEnd } from '@curebook/trade/design/acceptable-range'
import type { Curve } from '@curebook/trade/design/curve'
import { meansWithExcluded } from '@curebook/trade/design/excluded-results'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { DecimalSign } from '@curebook/trade/quantity/display'
import { isEntered, unitsFor } from '@curebook/trade/specification/enterable'
import { limitWords } from '@curebook/trade/specification/judge'
import { overallOf } from '@curebook/trade/specification/panel'
import type { Specification } from '@curebook/trade/specification/specification'
import { askedAt } from './asked-counts.ts'
import { toCalculation } from './calculation-view.ts'
import type { DesignRange } from './design-range.ts'
import { gradationCheckOf, heldOf } from './held-by-design.ts'
import { type JudgedContent, panelOf } from './range-panel.ts'
import { notNamed } from './unheld-limits.ts'

/** The range as screens and reports show it. `content` is the recommended one; null while none is. */
export function toRangeView(
  { range, band, methodOf, excludedOf, tested, classed, methodsOf, unheld }: DesignRange,
  {
    design,
    rules,
    content,
    sign,
    entered,
    gradation,
    methods,
    counts,
  }: {
    design: Design
    rules: Specification
    content: JudgedContent | null
    sign: DecimalSign
    entered: readonly PanelResult[]
    gradation: Gradation | null
    methods: readonly MethodDeclaration[]
    counts: readonly AskedCount[]
  },
): RangeView {
  const check = gradationCheckOf(rules, gradation, sign)
  const methodBy = (methodKey: string | null | undefined) => methods.find(({ key }) => key === methodKey)
  const nameOf = (methodKey: string) => methodBy(methodKey)?.name ?? methodKey
  const asks = {
    askedOf: (methodKey: string, at: string | null) => askedAt(counts, methodBy(methodKey), at),
    curveAsks: (key: string, at: string) => askedAt(counts, methodBy(methodOf[key]), at),
  }
  const held = heldOf(design, rules)
  const found = { entered, tested, classed, held }
  const asked = { ...rules, limits: [...rules.limits, ...unheld] }
  const apart = methods.filter(({ noReplicates }) => noReplicates !== undefined).map(({ key }) => key)
  const panel = panelOf(range.curves, { rules: asked, content, sign, ...found, methodsOf, nameOf, apart, ...asks })
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
    panel: panel.rows.map(asShown),
    enterable: rules.limits.flatMap((limit) =>
      isEntered(limit, methods) && limit.property !== 'residue'
        ? [{ key: limit.key, units: [...unitsFor(limit.unit)] }]
        : [],
    ),
    overall: overallWith(panel, check, gradation !== null),
    gradation,
    gradationCheck: check,
  }
}

/** What no specification names has no limit that somebody declared, and no certainty of one. */
function asShown(row: PanelRow): PanelRow {
  return row.limitSource === notNamed
    ? { ...row, limit: limitWords({ value: null, unit: '', sense: 'max' }), certainty: '' }
    : row
}

/** The panel with the band of the gradation, where one is held: what is outside fails, and what is not known is not passed. */
function overallWith(
  { rows, sentence }: ReturnType<typeof panelOf>,
  check: GradationCheck | null,
  isEnteredAtAll: boolean,
): string {
  if (check === null || check.verdict === 'inside') return sentence
  const whole = overallOf([
    ...rows,
    { label: gradationLabel, verdict: gradationVerdict(check, isEnteredAtAll) },
  ]).sentence
  return isEnteredAtAll ? `${whole} ${check.sentence}` : whole
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
      guarded:
        curve.limit.decision?.rule === 'guard band'
          ? { held: curve.limit.decision.held, rule: curve.limit.decision.words }
          : null,
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
