import type { PanelResult } from '@curebook/contract/panel-results'
import type { PanelRow } from '@curebook/contract/range'
import type { Calculation } from '@curebook/contract/results'
import { curveValueAt } from '@curebook/trade/design/curve-value'
import type { Curve } from '@curebook/trade/design/curve'
import { decimal } from '@curebook/trade/quantity/decimal'
import { type DecimalSign, displayDigits } from '@curebook/trade/quantity/display'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { inLimitUnit } from '@curebook/trade/specification/enterable'
import { judgePanel, type PanelOutcome } from '@curebook/trade/specification/panel'
import type { Specification } from '@curebook/trade/specification/specification'
import { toCalculation } from './calculation-view.ts'

/** The content at which the panel is judged. */
export type JudgedContent = { readonly emulsionPercent: string; readonly residualPercent: string }

type PanelFacts = {
  readonly rules: Specification
  readonly content: JudgedContent | null
  readonly sign: DecimalSign
  readonly entered: readonly PanelResult[]
}
type Found = { readonly outcome: PanelOutcome; readonly calculation: Calculation | null }

/**
 * Every property of the specification in one table. What is tested is judged at the recommended content, or at the one
 * content of a verification; before a content is recommended it stands undecided, never as passing. What no method here
 * computes is judged as it was entered.
 */
export function panelOf(curves: readonly Curve[], facts: PanelFacts): { rows: PanelRow[]; sentence: string } {
  const { rules, content, sign } = facts
  const computed = curves.flatMap((curve) => computedOf(curve, facts))
  const taken = new Set(curves.filter(({ means }) => means.length > 0).map(({ key }) => key))
  const standing = facts.entered.filter(({ limitKey }) => !taken.has(limitKey))
  const typed = standing.flatMap((result) => typedOf(result, facts))
  const found = [...computed, ...typed]
  const panel = judgePanel(
    rules,
    found.map(({ outcome }) => outcome),
    sign,
  )
  const rows = panel.rows.map(({ entered, ...judged }): PanelRow => {
    const calculation = found.find(({ outcome }) => outcome.limitKey === judged.key)?.calculation ?? null
    const result = entered ? (standing.find(({ limitKey }) => limitKey === judged.key) ?? null) : null
    const row = { ...judged, calculation, entered: result }
    if (result !== null) return elsewhere(row, result, facts) ?? row
    if (row.verdict !== 'not tested' || !taken.has(row.key)) return row
    const sentence =
      content === null
        ? `${row.label}: tested; judged once a content is recommended.`
        : `${row.label}: tested, but not at the recommended content.`
    return { ...row, verdict: 'undecided', sentence }
  })
  const changed = rows.some(({ verdict }, index) => verdict !== panel.rows[index]?.verdict)
  return { rows, sentence: changed ? sentenceOf(rows) : panel.sentence }
}

function computedOf(curve: Curve, { content, sign }: PanelFacts): Found[] {
  const only = curve.means.length === 1 ? curve.means[0] : undefined
  const at = content ?? (only && { emulsionPercent: only.emulsionPercent, residualPercent: only.x })
  const value = at && curveValueAt(curve, at)
  if (!value) return []
  const words = `at ${displayDigits(at.emulsionPercent, { sign })} % emulsion${value.kind === 'line' ? ', between tested contents' : ''}`
  const outcome: PanelOutcome = { limitKey: curve.key, value: value.value, unit: value.unit, at: words, n: value.n }
  return [{ outcome, calculation: toCalculation(value.calculation) }]
}

/** In the limit's unit where it converts; else as typed, which the judgement then says. */
function typedOf(
  { limitKey, typed, value, unit, atEmulsionPercent }: PanelResult,
  { rules, sign }: PanelFacts,
): Found[] {
  const limit = rules.limits.find(({ key }) => key === limitKey)
  if (!limit) return []
  // The zeros that were typed say how finely it was read.
  const read = readTypedNumber(typed, { unit })
  const digits = read.ok ? read.value : value
  const converted = inLimitUnit(digits, unit, limit.unit)
  const at = atEmulsionPercent === null ? {} : { at: `at ${displayDigits(atEmulsionPercent, { sign })} % emulsion` }
  const outcome = {
    limitKey,
    value: converted ?? digits,
    unit: converted === undefined ? unit : limit.unit,
    entered: true,
  }
  return [{ outcome: { ...outcome, ...at }, calculation: null }]
}

/** A value of another content than the recommended one says nothing of that: undecided, with the sentence. */
function elsewhere(
  row: PanelRow,
  { atEmulsionPercent: at }: PanelResult,
  { content, sign }: PanelFacts,
): PanelRow | undefined {
  if (at === null || content === null || decimal(at).eq(content.emulsionPercent)) return undefined
  const [tested, recommended] = [at, content.emulsionPercent].map((digits) => displayDigits(digits, { sign }))
  return {
    ...row,
    verdict: 'undecided',
    margin: null,
    sentence: `${row.label}: found at ${tested} % emulsion, and ${recommended} % is recommended. Entered, not computed here.`,
  }
}

function sentenceOf(rows: readonly PanelRow[]): string {
  const labels = (verdict: PanelRow['verdict']) =>
    rows.filter((row) => row.verdict === verdict).map(({ label }) => label.charAt(0).toLowerCase() + label.slice(1))
  const said = (words: string, found: readonly string[]) => (found.length > 0 ? [`${words}: ${found.join('; ')}.`] : [])
  return [
    ...(labels('fail').length > 0 ? [] : ['The panel is not complete.']),
    ...said('Does not meet its limit', labels('fail')),
    ...said('Undecided', labels('undecided')),
    ...said('Not tested', labels('not tested')),
  ].join(' ')
}
