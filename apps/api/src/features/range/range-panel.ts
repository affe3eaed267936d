import type { PanelResult } from '@curebook/contract/panel-results'
import type { PanelRow } from '@curebook/contract/range'
import type { Calculation } from '@curebook/contract/results'
import { curveValueAt } from '@curebook/trade/design/curve-value'
import type { Curve } from '@curebook/trade/design/curve'
import { apartFromTarget } from '@curebook/trade/design/as-weighed'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import { type DecimalSign, displayDigits } from '@curebook/trade/quantity/display'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { inLimitUnit } from '@curebook/trade/specification/enterable'
import { judgePanel, overallOf, type PanelOutcome } from '@curebook/trade/specification/panel'
import { pointsAt } from '@curebook/trade/specification/panel-tests'
import { toCalculation } from './calculation-view.ts'
import { besideOf, withBesides } from './panel-besides.ts'
import { answersOf, type MethodAnswer } from './panel-answers.ts'
import type { JudgedContent, PanelFacts } from './panel-facts.ts'

export type { JudgedContent }
type Found = {
  readonly outcome: PanelOutcome
  readonly calculation: Calculation | null
  /** How many tests are asked for; null where nothing says it. */
  readonly asked: number | null
}

/**
 * Every property of the specification in one table. What is tested is judged at the recommended content, or at the one
 * content of a verification; before a content is recommended it stands undecided, never as passing. Where a test was made
 * here its result speaks; else what was entered. What else was found of the property, by another method or elsewhere, is
 * told beside it, and where one of them meets the limit and the other does not it is undecided.
 */
export function panelOf(curves: readonly Curve[], facts: PanelFacts): { rows: PanelRow[]; sentence: string } {
  const { rules, sign } = facts
  const curved = curves.filter(({ means }) => means.length > 0).map(({ key }) => key)
  const answers = new Map(
    rules.limits.map((limit) => [limit.key, curved.includes(limit.key) ? [] : answersOf(limit, facts)] as const),
  )
  const speaking = [...answers.values()].flatMap(([first]) => first ?? [])
  const ofTests = speaking.flatMap(({ outcome, calculation, asked }): Found[] =>
    outcome ? [{ outcome, calculation: calculation ? toCalculation(calculation) : null, asked }] : [],
  )
  const taken = new Set([...curved, ...speaking.map(({ limitKey }) => limitKey)])
  const standing = facts.entered.filter(({ limitKey }) => !taken.has(limitKey))
  const typed = standing.flatMap((result) => typedOf(result, facts))
  const held = (facts.held ?? []).map((outcome): Found => ({ outcome, calculation: null, asked: null }))
  const found = [...curves.flatMap((curve) => computedOf(curve, facts)), ...ofTests, ...typed, ...held]
  const panel = judgePanel(
    rules,
    found.map(({ outcome }) => outcome),
    sign,
  )
  const rows = panel.rows.map(({ entered, ...judged }): PanelRow => {
    const own = found.find(({ outcome }) => outcome.limitKey === judged.key)
    const { calculation = null, asked = null } = own ?? {}
    const result = entered ? (standing.find(({ limitKey }) => limitKey === judged.key) ?? null) : null
    const beside = facts.entered.find(({ limitKey }) => limitKey === judged.key && taken.has(limitKey)) ?? null
    const row: PanelRow = {
      ...judged,
      ...fewerOf(judged.n, asked),
      classes: null,
      calculation,
      entered: result,
      beside,
    }
    if (result !== null) return withUnspokenTests(elsewhere(row, result, facts) ?? row, facts)
    const [first, ...others] = answers.get(row.key) ?? []
    const spoken = first !== undefined && first.classes !== null ? classRow(row, first) : waitingRow(row, facts, curved)
    const limit = rules.limits.find(({ key }) => key === row.key)!
    const at = facts.content?.emulsionPercent ?? first?.emulsionPercent ?? null
    return withBesides(spoken, first, [
      ...others,
      ...(beside ? [besideOf(limit, beside, typedOf(beside, facts)[0]?.outcome, { at, sign })] : []),
    ])
  })
  const changed = rows.some(({ verdict }, index) => verdict !== panel.rows[index]?.verdict)
  return { rows, sentence: changed ? overallOf(rows).sentence : panel.sentence }
}

/** A class is no value: its words stand in place of one. */
function classRow(row: PanelRow, { verdict, said, classes, at, n, asked }: MethodAnswer): PanelRow {
  return { ...row, verdict, sentence: `${row.label}: ${said}`, classes, at: at ?? null, n, ...fewerOf(n, asked) }
}

/** How many tests are asked for, only where fewer count. */
function fewerOf(n: number | null, asked: number | null): Pick<PanelRow, 'asked'> {
  return n !== null && asked !== null && n < asked ? { asked } : {}
}

/** What was entered speaks where no test does; that there are tests here is said with it. */
function withUnspokenTests(row: PanelRow, { content, tested, classed = [] }: PanelFacts): PanelRow {
  if (![...tested, ...classed].some(({ limitKey }) => limitKey === row.key)) return row
  const why =
    content === null ? 'judged once a content is recommended' : 'no result that counts at the recommended content'
  return { ...row, sentence: `${row.sentence} Tested here as well: ${why}.` }
}

/** Tested, and still without a value to judge: it says why, and never reads as not tested. */
function waitingRow(row: PanelRow, facts: PanelFacts, curved: readonly string[]): PanelRow {
  const { rules, content, tested, classed = [] } = facts
  const own = tested.filter(({ limitKey }) => limitKey === row.key)
  const isWaiting = curved.includes(row.key) || own.length > 0 || classed.some(({ limitKey }) => limitKey === row.key)
  if (row.verdict !== 'not tested' || !isWaiting) return row
  const limit = rules.limits.find(({ key }) => key === row.key)
  if (limit?.value === null)
    return { ...row, verdict: 'no limit held', sentence: `${row.label}: tested; no limit is held.` }
  const units = [...new Set(pointsAt(own, content?.emulsionPercent ?? null).map(({ unit }) => unit))]
  const why =
    units.length > 0
      ? `the results stand in ${units.join(', ')} and the limit in ${limit?.unit}: none is compared with it.`
      : content === null
        ? 'judged once a content is recommended.'
        : ''
  const sentence =
    why === '' ? `${row.label}: tested, but not at the recommended content.` : `${row.label}: tested; ${why}`
  return { ...row, verdict: 'undecided', sentence }
}

function computedOf(curve: Curve, { content, sign, curveAsks }: PanelFacts): Found[] {
  const only = curve.means.length === 1 ? curve.means[0] : undefined
  const at = content ?? (only && { emulsionPercent: only.emulsionPercent, residualPercent: only.x })
  const value = at && curveValueAt(curve, at)
  if (!value) return []
  const how = value.kind === 'line' ? ', between tested contents' : asWeighed(curve, at, sign)
  const words = `at ${displayDigits(at.emulsionPercent, { sign })} % emulsion${how}`
  const outcome: PanelOutcome = { limitKey: curve.key, value: value.value, unit: value.unit, at: words, n: value.n }
  // Between two contents the smaller number of the two is told: beside the greater that is asked for.
  const asked = value.emulsionPercents.map((each) => curveAsks?.(curve.key, each) ?? 0)
  return [{ outcome, calculation: toCalculation(value.calculation), asked: Math.max(0, ...asked) || null }]
}

/** Where the specimens of a content were weighed further from it than is usual on their mean: where they were. */
function asWeighed({ means }: Curve, { emulsionPercent, residualPercent }: JudgedContent, sign: DecimalSign): string {
  const own = means.find((mean) => decimal(mean.emulsionPercent).eq(emulsionPercent))
  if (!own || decimal(residualPercent).isZero()) return ''
  const weighed = plainDigits(decimal(own.x).times(emulsionPercent).div(residualPercent))
  return apartFromTarget(emulsionPercent, weighed) === null
    ? ''
    : ` (${displayDigits(weighed, { sign, decimals: 2 })} % as weighed)`
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
  return [{ outcome: { ...outcome, ...at }, calculation: null, asked: null }]
}

/** A value of another content than the recommended one says nothing of that: undecided, with the sentence. */
function elsewhere(
  row: PanelRow,
  { atEmulsionPercent: at }: PanelResult,
  { content, sign }: PanelFacts,
): PanelRow | undefined {
  // Without a limit nothing is judged, wherever it was found.
  if (row.verdict === 'no limit held') return undefined
  if (at === null || content === null || decimal(at).eq(content.emulsionPercent)) return undefined
  const [tested, recommended] = [at, content.emulsionPercent].map((digits) => displayDigits(digits, { sign }))
  return {
    ...row,
    verdict: 'undecided',
    margin: null,
    sentence: `${row.label}: found at ${tested} % emulsion, and ${recommended} % is recommended. Entered, not computed here.`,
  }
}
