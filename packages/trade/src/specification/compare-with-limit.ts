import { decimal, plainDigits } from '../quantity/decimal.ts'
import { roundToStep } from '../quantity/round-to-step.ts'
import type { RoundingRule } from '../quantity/rounding.ts'
import { valueOf } from '../statistics/values.ts'

/**
 * How a result is held against a limit. ASTM E29 names two ways, and a reference to it says nothing until one is named:
 * - `absolute`: as computed, no digit dropped
 * - `rounding`: rounded by the rule first, to the last place of the limit as written or to a step that is named
 */
export type LimitComparison =
  | { readonly method: 'absolute' }
  | { readonly method: 'rounding'; readonly rule: Exclude<RoundingRule, 'none'>; readonly step?: string }

export type ComparedWithLimit = {
  readonly meets: boolean
  readonly compared: string
  /** Positive on the passing side. */
  readonly margin: string
  /** "absolute method", "rounding method, half-even, to 0.1" */
  readonly words: string
}

/**
 * A value against a limit of the same unit; a value on the limit meets it.
 * @throws MethodInputError `inconsistent` for what is no number in digits, `not-positive` for a step of 0 or less
 */
export function compareWithLimit(
  value: string,
  limit: { readonly value: string; readonly sense: 'max' | 'min' },
  comparison: LimitComparison,
): ComparedWithLimit {
  const held = valueOf(limit.value, 'The limit')
  const given = valueOf(value, 'The result')
  const rounding = comparison.method === 'rounding'
  const step = rounding ? (comparison.step ?? lastPlaceOf(limit.value)) : null
  const compared = rounding && step !== null ? roundToStep(plainDigits(given), step, comparison.rule) : value
  const margin = limit.sense === 'max' ? held.minus(compared) : decimal(compared).minus(held)
  return {
    meets: margin.gte(0),
    compared,
    margin: plainDigits(margin),
    words: rounding ? `rounding method, ${comparison.rule}, to ${step}` : 'absolute method',
  }
}

/** One unit in the last place as written: 0.1 for 4.0, 1 for 50. */
function lastPlaceOf(limit: string): string {
  const places = limit.split('.')[1]?.length ?? 0
  return places === 0 ? '1' : `0.${'0'.repeat(places - 1)}1`
}
