import { decimal, plainDigits } from '../quantity/decimal.ts'
import { displayDigits, type DecimalSign } from '../quantity/display.ts'
import { round } from '../quantity/rounding.ts'
import { acceptanceEnds, decisionWords, type Ends, endsOf, marginOf } from './limit-decision.ts'
import { comparisonWords, type Limit } from './specification.ts'

export type Verdict = 'pass' | 'fail' | 'undecided'
export type Judgement = {
  readonly verdict: Verdict
  /**
   * Distance from what decides to the compared value, positive on the passing side, in the limit's unit: from the limit
   * itself, or from its acceptance limit under a guard band; of two ends the nearer one. Null when undecided.
   */
  readonly margin: string | null
  /** The value as compared: full digits, or rounded by the rule. */
  readonly compared: string | null
  readonly sentence: string
}
type Judged = Pick<Limit, 'value' | 'upper' | 'unit' | 'sense' | 'rounding' | 'decisionRule' | 'uncertainty'>

/**
 * Compares a value with a limit in the limit's own unit: unrounded (absolute method) or rounded (rounding method, ASTM E29)
 * to the last place of what it is compared with: the limit as written, under a rule that takes an uncertainty that of the
 * limit moved by U. Simple acceptance: a value on the limit passes, and no uncertainty is
 * taken off. Guard band (ILAC-G8:09/2019): the acceptance limit, U inside the limit, decides. Non-binary: what lies within
 * U of the limit is neither, and said to be a conditional pass or fail. Undecided without a limit, in another unit
 * (nothing is converted here), or where the rule takes an uncertainty and none is held.
 */
export function judge(
  limit: Judged,
  result: { readonly value: string; readonly unit: string },
  sign?: DecimalSign,
): Judgement {
  if (limit.sense === 'declared') return undecided('Declared, with no limit: nothing is passed or failed.')
  if (!endsOf(limit)) return undecided('No limit is held for this property.')
  if (limit.unit !== result.unit)
    return undecided(
      `The limit stands in ${limit.unit} and the result in ${result.unit}: a limit is compared in its own unit.`,
    )
  const ends = acceptanceEnds(limit)
  if (!ends) return undecided(`The ${limit.decisionRule} rule takes an uncertainty, and none is held for this limit.`)
  const compared = round(result.value, placesOf(limit), limit.rounding)
  const margin = marginOf(ends, compared)
  const isConditional = limit.decisionRule === 'non-binary' && margin.abs().lte(limit.uncertainty?.expanded ?? '0')
  const verdict = isConditional ? 'undecided' : margin.gte(0) ? 'pass' : 'fail'
  const words = {
    pass: 'meets',
    fail: 'does not meet',
    undecided: `is a conditional ${margin.gte(0) ? 'pass' : 'fail'}, within U of`,
  }
  const sentence = sentenceOf(limit, compared, ends, words[verdict], sign)
  return { verdict, margin: plainDigits(margin), compared, sentence }
}

/** "at most 538 g/m²", "40 to 90 dmm" */
export function limitWords(
  { value, upper, unit, sense }: Pick<Limit, 'value' | 'upper' | 'unit' | 'sense'>,
  sign?: DecimalSign,
): string {
  if (sense === 'declared') return 'declared, no limit'
  const show = (digits: string) => displayDigits(digits, sign ? { sign } : {})
  if (value === null) return 'no limit held'
  const held = unit === '1' ? '' : ` ${unit}`
  if (sense === 'between') return upper == null ? 'no limit held' : `${show(value)} to ${show(upper)}${held}`
  return `${sense === 'max' ? 'at most' : 'at least'} ${show(value)}${held}`
}

const undecided = (sentence: string): Judgement => ({ verdict: 'undecided', margin: null, compared: null, sentence })

/** Decimals of what is compared with, as written: of two ends and of U, where the rule moves them by it, the finest. */
function placesOf({ value, upper, decisionRule, uncertainty }: Judged): number {
  const moved = decisionRule === 'simple acceptance' ? null : uncertainty?.expanded
  return Math.max(...[value, upper, moved].map((digits) => decimalsOf(digits ?? '')))
}

function sentenceOf(limit: Judged, compared: string, { lower, upper }: Ends, met: string, sign?: DecimalSign): string {
  const nearest = [lower, upper].flatMap((end) => end ?? [])
  const decimals = Math.max(...nearest.map((end) => placesToTell(compared, end)))
  const shown = displayDigits(compared, { decimals, ...(sign ? { sign } : {}) })
  const accepted =
    limit.decisionRule === 'guard band'
      ? `, acceptance limit ${nearest.map((end) => displayDigits(end, sign ? { sign } : {})).join(' to ')} ${limit.unit}`
      : ''
  return `${shown}${limit.unit === '1' ? '' : ` ${limit.unit}`} ${met} the limit, ${limitWords(limit, sign)}${accepted}: ${comparisonWords(limit.rounding, limit.decisionRule)}, ${decisionWords(limit, sign)}.`
}

const decimalsOf = (digits: string) => digits.split('.')[1]?.length ?? 0

/**
 * One place more than the limit, and as many more as it takes to tell a value beside the limit from the limit; 30 is within
 * the 34 digits of IEEE 754 (2019) that are computed with.
 */
function placesToTell(compared: string, value: string): number {
  const least = Math.min(decimalsOf(value) + 1, Math.max(decimalsOf(compared), decimalsOf(value)))
  if (decimal(compared).eq(value)) return least
  let places = least
  while (places < 30 && decimal(round(compared, places, 'half-even')).eq(value)) places += 1
  return places
}
