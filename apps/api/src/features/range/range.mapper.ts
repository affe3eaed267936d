import type { Design } from '@curebook/contract/designs'
import type {
  Curve as CurveView,
  ExcludedPoint,
  PanelRow,
  RangeEnd as RangeEndView,
  RangeView,
} from '@curebook/contract/range'
import type { Calculation } from '@curebook/contract/results'
import type { RangeEnd } from '@curebook/trade/design/acceptable-range'
import { curveValueAt } from '@curebook/trade/design/curve-value'
import type { Curve } from '@curebook/trade/design/curve'
import { meansWithExcluded } from '@curebook/trade/design/excluded-results'
import type { Calculation as TradeCalculation } from '@curebook/trade/procedure/calculation'
import type { DecimalSign } from '@curebook/trade/quantity/display'
import { displayDigits } from '@curebook/trade/quantity/display'
import { judgePanel, type Panel, type PanelOutcome } from '@curebook/trade/specification/panel'
import type { Specification } from '@curebook/trade/specification/specification'
import type { DesignRange } from './design-range.ts'

/** The content at which the panel is judged. */
export type JudgedContent = { readonly emulsionPercent: string; readonly residualPercent: string }

/** The range as screens and reports show it. `content` is the recommended one; null while none is. */
export function toRangeView(
  { range, band, methodOf, excludedOf }: DesignRange,
  {
    design,
    rules,
    content,
    sign,
  }: { design: Design; rules: Specification; content: JudgedContent | null; sign: DecimalSign },
): RangeView {
  const panel = panelOf(range.curves, rules, content, sign)
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
    overall: panel.sentence,
  }
}

/**
 * Every property of the specification in one table. What is tested is judged at the recommended content, or at the one
 * content of a verification; before a content is recommended it stands undecided, never as passing.
 */
function panelOf(
  curves: readonly Curve[],
  rules: Specification,
  content: JudgedContent | null,
  sign: DecimalSign,
): { rows: PanelRow[]; sentence: string } {
  const judged = curves.flatMap((curve) => {
    const only = curve.means.length === 1 ? curve.means[0] : undefined
    const at = content ?? (only && { emulsionPercent: only.emulsionPercent, residualPercent: only.x })
    const value = at && curveValueAt(curve, at)
    if (!value) return []
    const words = `at ${displayDigits(at.emulsionPercent, { sign })} % emulsion${value.kind === 'line' ? ', between tested contents' : ''}`
    const outcome: PanelOutcome = { limitKey: curve.key, value: value.value, unit: value.unit, at: words, n: value.n }
    return [{ outcome, calculation: toCalculation(value.calculation) }]
  })
  const panel = judgePanel(
    rules,
    judged.map(({ outcome }) => outcome),
    sign,
  )
  const calculationOf = (key: string) => judged.find(({ outcome }) => outcome.limitKey === key)?.calculation ?? null
  const waiting = new Set(curves.filter(({ means }) => means.length > 0).map(({ key }) => key))
  const undecided = panel.rows.filter(({ key, verdict }) => verdict === 'not tested' && waiting.has(key))
  const rows = panel.rows.map(({ entered: _, ...found }): PanelRow => {
    const row = { ...found, calculation: calculationOf(found.key) }
    if (row.verdict !== 'not tested' || !waiting.has(row.key)) return row
    const sentence =
      content === null
        ? `${row.label}: tested; judged once a content is recommended.`
        : `${row.label}: tested, but not at the recommended content.`
    return { ...row, verdict: 'undecided', sentence }
  })
  return { rows, sentence: undecided.length > 0 ? withUndecided(panel, rows) : panel.sentence }
}

function withUndecided(panel: Panel, rows: readonly PanelRow[]): string {
  const labels = (verdict: PanelRow['verdict']) =>
    rows.filter((row) => row.verdict === verdict).map(({ label }) => label.charAt(0).toLowerCase() + label.slice(1))
  const said = (words: string, found: readonly string[]) => (found.length > 0 ? [`${words}: ${found.join('; ')}.`] : [])
  const lead = panel.overall === 'fail' ? [] : ['The panel is not complete.']
  return [
    ...lead,
    ...said('Does not meet its limit', labels('fail')),
    ...said('Undecided', labels('undecided')),
    ...said('Not tested', labels('not tested')),
  ].join(' ')
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

/** The stored form is the shown form; only the type loses its readonly. */
export function toCalculation({ schema, lines }: TradeCalculation): Calculation {
  return {
    schema,
    lines: lines.map((line) => ({
      ...line,
      operands: [...line.operands],
      ...(line.input ? { input: { ...line.input } } : {}),
    })) as Calculation['lines'],
  }
}
