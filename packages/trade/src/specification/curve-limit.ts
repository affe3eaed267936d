import type { CurveLimit } from '../design/curve.ts'
import type { DecimalSign } from '../quantity/display.ts'
import { acceptanceEnds, decisionWords } from './limit-decision.ts'
import type { Limit } from './specification.ts'

/**
 * A limit as a line can cross it, by the ends that a value is judged by: under a guard band the acceptance limit, U inside
 * the limit (ILAC-G8:09/2019), so that the range names no content that the panel then fails; else the limit itself. Null for
 * what has two ends, is declared or not held, or has a rule without the uncertainty that it takes.
 */
export function curveLimitOf(limit: Limit, sign?: DecimalSign): CurveLimit | null {
  const { value: held, unit, sense, label, source, decisionRule } = limit
  const ends = acceptanceEnds(limit)
  if (held === null || (sense !== 'max' && sense !== 'min') || !ends) return null
  const crossed = { unit, sense, label, source, value: (sense === 'max' ? ends.upper : ends.lower) ?? held }
  if (decisionRule === 'simple acceptance') return crossed
  const words = decisionWords(limit, sign)
  if (decisionRule === 'non-binary') return { ...crossed, decision: { rule: decisionRule, held, words } }
  return { ...crossed, label: `${label}, acceptance limit`, decision: { rule: decisionRule, held, words } }
}
