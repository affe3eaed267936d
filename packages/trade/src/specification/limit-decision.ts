import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import { type DecimalSign, displayDigits } from '../quantity/display.ts'
import type { Limit } from './specification.ts'

/** The ends of a limit: null on a side that is open. */
export type Ends = { readonly lower: string | null; readonly upper: string | null }

/** The ends of a limit as written; undefined where no limit is held. */
export function endsOf({ value, upper = null, sense }: Pick<Limit, 'value' | 'upper' | 'sense'>): Ends | undefined {
  if (value === null || sense === 'declared') return undefined
  if (sense === 'between') return upper === null ? undefined : { lower: value, upper }
  return sense === 'max' ? { lower: null, upper: value } : { lower: value, upper: null }
}

/**
 * Between which values a result is accepted: a guard band moves each end inwards by U (ILAC-G8:09/2019, w = U: acceptance
 * limit = limit − U at an upper end, limit + U at a lower one). Under the other rules the limit's own ends.
 * Undefined where no limit is held, or where the rule takes an uncertainty and none is held.
 */
export function acceptanceEnds(
  limit: Pick<Limit, 'value' | 'upper' | 'sense' | 'decisionRule' | 'uncertainty'>,
): Ends | undefined {
  const ends = endsOf(limit)
  if (!ends || limit.decisionRule === 'simple acceptance') return ends
  if (!limit.uncertainty) return undefined
  if (limit.decisionRule === 'non-binary') return ends
  const { expanded } = limit.uncertainty
  return {
    lower: ends.lower === null ? null : plainDigits(decimal(ends.lower).plus(expanded)),
    upper: ends.upper === null ? null : plainDigits(decimal(ends.upper).minus(expanded)),
  }
}

/** Distance to the nearer end, positive between them. */
export function marginOf({ lower, upper }: Ends, compared: string): Decimal {
  const below = lower === null ? [] : [decimal(compared).minus(lower)]
  const above = upper === null ? [] : [decimal(upper).minus(compared)]
  return [...below, ...above].reduce((nearer, each) => (each.lt(nearer) ? each : nearer))
}

/** The rule as it is printed: its name, and the uncertainty that it takes. */
export function decisionWords(
  { decisionRule, uncertainty, unit }: Pick<Limit, 'decisionRule' | 'uncertainty' | 'unit'>,
  sign?: DecimalSign,
): string {
  if (decisionRule === 'simple acceptance') return decisionRule
  const name = decisionRule === 'guard band' ? 'guard band of U' : 'non-binary rule with U'
  if (!uncertainty) return name
  const show = (digits: string) => displayDigits(digits, sign ? { sign } : {})
  return `${name} = ${show(uncertainty.expanded)} ${unit}, k = ${show(uncertainty.coverageFactor)} (${uncertainty.source}; ILAC-G8:09/2019)`
}

/** One line for a whole specification: the rule of most limits, and before it every other rule with its limits. */
export function decisionsWords(
  limits: readonly Pick<Limit, 'label' | 'decisionRule' | 'uncertainty' | 'unit'>[],
): string {
  const labels = new Map<string, string[]>()
  for (const limit of limits) {
    const rule = decisionWords(limit)
    labels.set(rule, [...(labels.get(rule) ?? []), limit.label])
  }
  const [most, ...others] = [...labels].toSorted(([, a], [, b]) => b.length - a.length)
  if (!most) return 'simple acceptance'
  if (others.length === 0) return most[0]
  return [...others.map(([rule, named]) => `${named.join(', ')}: ${rule}`), `all others: ${most[0]}`].join('; ')
}
