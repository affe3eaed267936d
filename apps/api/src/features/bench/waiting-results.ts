import type { Evaluation, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { slotName } from '@curebook/trade/procedure/progress'
import type { TestRecord } from './test-record.ts'

/**
 * Says of every result of a test that it waits for release while a reading that it needs does not count. What was computed
 * before from a reading that has been corrected since gives way to this, so that no number outlives what it was made of.
 */
export function withWaiting(
  method: MethodDeclaration,
  { slots }: Pick<TestRecord, 'slots'>,
  evaluation: Evaluation,
): Evaluation {
  const held = slots.filter(({ counts }) => !counts)
  const needed = held.filter((slot) => evaluation.missing.includes(slotName(slot)))
  if (needed.length === 0) return evaluation
  const labels = [...new Set(needed.map(({ step, key }) => labelOf(method, step, key)))]
  const text = `Waits for release: ${labels.join(', ')} ${labels.length === 1 ? 'is' : 'are'} kept and ${labels.length === 1 ? 'does' : 'do'} not count yet.`
  const keys = [...new Set(method.results.map(({ key }) => key))]
  return {
    ...evaluation,
    refusals: [
      ...evaluation.refusals,
      ...keys.map((key) => ({ key, code: 'waits-for-release' as const, text, detail: {} })),
    ],
  }
}

function labelOf(method: MethodDeclaration, stepKey: string, key: string): string {
  const step = method.steps.find((one) => one.key === stepKey)
  const label = step?.readings.find((one) => one.key === key)?.label ?? key
  return `${label} of “${step?.title ?? stepKey}”`
}
