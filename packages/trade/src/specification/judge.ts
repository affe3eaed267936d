import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import { displayDigits, type DecimalSign } from '../quantity/display.ts'
import { round } from '../quantity/rounding.ts'
import { comparisonWords, type Limit } from './specification.ts'

export type Verdict = 'pass' | 'fail' | 'undecided'
export type Judgement = {
  readonly verdict: Verdict
  /** Distance from the limit to the compared value, positive on the passing side, in the limit's unit; null when undecided. */
  readonly margin: string | null
  /** The value as compared: full digits, or rounded by the rule. */
  readonly compared: string | null
  readonly sentence: string
}

/**
 * Compares a value with a limit in the limit's own unit: unrounded (absolute method) or rounded to the last place of the
 * limit as written (rounding method), ASTM E29. Simple acceptance: a value on the limit passes, and no uncertainty is
 * taken off. Undecided without a limit or in another unit: nothing is converted here.
 */
export function judge(
  limit: Pick<Limit, 'value' | 'unit' | 'sense' | 'rounding' | 'decisionRule'>,
  result: { readonly value: string; readonly unit: string },
  sign?: DecimalSign,
): Judgement {
  if (limit.value === null)
    return { verdict: 'undecided', margin: null, compared: null, sentence: 'No limit is held for this property.' }
  if (limit.unit !== result.unit) {
    const sentence = `The limit stands in ${limit.unit} and the result in ${result.unit}: a limit is compared in its own unit.`
    return { verdict: 'undecided', margin: null, compared: null, sentence }
  }
  const compared = round(result.value, placesOf(limit.value), limit.rounding)
  const margin = limit.sense === 'max' ? decimal(limit.value).minus(compared) : decimal(compared).minus(limit.value)
  const verdict = margin.gte(0) ? 'pass' : 'fail'
  return {
    verdict,
    margin: plainDigits(margin),
    compared,
    sentence: sentenceOf(limit, limit.value, compared, margin, sign),
  }
}

/** "at most 538 g/m²" */
export function limitWords(
  { value, unit, sense }: Pick<Limit, 'value' | 'unit' | 'sense'>,
  sign?: DecimalSign,
): string {
  if (value === null) return 'no limit held'
  return `${sense === 'max' ? 'at most' : 'at least'} ${displayDigits(value, sign ? { sign } : {})} ${unit}`
}

function placesOf(digits: string): number {
  return digits.split('.')[1]?.length ?? 0
}

function sentenceOf(
  limit: Pick<Limit, 'unit' | 'sense' | 'rounding' | 'decisionRule'>,
  value: string,
  compared: string,
  margin: Decimal,
  sign?: DecimalSign,
): string {
  const shown = displayDigits(compared, { decimals: placesToTell(compared, value), ...(sign ? { sign } : {}) })
  const met = margin.gte(0) ? 'meets' : 'does not meet'
  return `${shown} ${limit.unit} ${met} the limit, ${limitWords({ ...limit, value }, sign)}: ${comparisonWords(limit.rounding)}, ${limit.decisionRule}.`
}

/** One place more than the limit, and as many more as it takes to tell a value beside the limit from the limit. */
function placesToTell(compared: string, value: string): number {
  const least = Math.min(placesOf(value) + 1, Math.max(placesOf(compared), placesOf(value)))
  if (decimal(compared).eq(value)) return least
  let places = least
  while (places < 30 && decimal(round(compared, places, 'half-even')).eq(value)) places += 1
  return places
}
