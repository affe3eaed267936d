import type { Evaluation, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { RefusalCode } from '@curebook/trade/quantity/method-input-error'
import { slotName } from '@curebook/trade/procedure/progress'
import type { TestRecord } from './test-record.ts'

/** Refusals that take the place of a number that stood before; alone they are shown, not stored. */
export function isWaiting(code: RefusalCode): boolean {
  return code === 'waits-for-release' || code === 'reading-withdrawn'
}

/** Of a result whose readings need not be taken: nothing is missing without them, and nothing follows any more. */
export const withdrawnSentence =
  'What this was computed from was withdrawn or corrected: it is computed again when it is read again.'

/**
 * Says of every result of a test that it waits while a reading that it needs does not count, or was taken back. What was
 * computed before from a reading that stands no more gives way to this, so that no number outlives what it was made of.
 */
export function withWaiting(
  method: MethodDeclaration,
  { slots, opened }: Pick<TestRecord, 'slots' | 'opened'>,
  evaluation: Evaluation,
): Evaluation {
  const labelsOf = (among: readonly Parameters<typeof slotName>[0][]) => [
    ...new Set(
      among
        .filter((slot) => evaluation.missing.includes(slotName(slot)))
        .map(({ step, key }) => labelOf(method, step, key)),
    ),
  ]
  const held = labelsOf(slots.filter(({ counts }) => !counts))
  const withdrawn = labelsOf(opened)
  if (withdrawn.length > 0)
    return refusing(
      'reading-withdrawn',
      `${withdrawn.join(', ')} ${withdrawn.length === 1 ? 'was' : 'were'} withdrawn: to be read again.`,
    )
  if (held.length > 0) return refusing('waits-for-release', waitsSentence(held))
  return evaluation

  function refusing(code: RefusalCode, text: string): Evaluation {
    const keys = [...new Set(method.results.map(({ key }) => key))]
    return {
      ...evaluation,
      refusals: [...evaluation.refusals, ...keys.map((key) => ({ key, code, text, detail: {} }))],
    }
  }
}

/**
 * Says of each result that it waits where a reading that need not be taken is kept and does not count: whatever comes out
 * otherwise with it would be told without it as if it had not been read.
 * @param counted what the readings that count give
 * @param evaluate the method's formula over any of the readings of the record
 */
export function withHeld(
  method: MethodDeclaration,
  slots: TestRecord['slots'],
  counted: Evaluation,
  evaluate: (slots: TestRecord['slots']) => Evaluation,
): Evaluation {
  const held = slots.filter(({ counts }) => !counts)
  if (held.length === 0 || counted.missing.length > 0) return counted
  const whole = evaluate(slots)
  const without = held.map((slot) => ({ slot, evaluation: evaluate(slots.filter((one) => one !== slot)) }))
  const waiting = [...new Set(method.results.map(({ key }) => key))]
    .filter((key) => outcomeOf(counted, key) !== outcomeOf(whole, key))
    .map((key) => {
      const used = without.filter(({ evaluation }) => outcomeOf(evaluation, key) !== outcomeOf(whole, key))
      const labels = (used.length > 0 ? used.map(({ slot }) => slot) : held).map((slot) =>
        labelOf(method, slot.step, slot.key),
      )
      return { key, code: 'waits-for-release', text: waitsSentence([...new Set(labels)]), detail: {} } as const
    })
  const stands = ({ key }: { readonly key: string }) => waiting.every((one) => one.key !== key)
  return {
    ...counted,
    results: counted.results.filter(stands),
    ...(counted.choices ? { choices: counted.choices.filter(stands) } : {}),
    refusals: [...counted.refusals.filter(stands), ...waiting],
  }
}

/** All that an evaluation says of a key, its working included, to be compared. */
function outcomeOf({ results, choices = [], refusals }: Evaluation, key: string): string {
  return JSON.stringify([results, choices, refusals].map((outcomes) => outcomes.filter((one) => one.key === key)))
}

function waitsSentence(labels: readonly string[]): string {
  const [are, doNot] = labels.length === 1 ? ['is', 'does'] : ['are', 'do']
  return `Waits for release: ${labels.join(', ')} ${are} kept and ${doNot} not count yet.`
}

function labelOf(method: MethodDeclaration, stepKey: string, key: string): string {
  const step = method.steps.find((one) => one.key === stepKey)
  const label = step?.readings.find((one) => one.key === key)?.label ?? key
  return `${label} of “${step?.title ?? stepKey}”`
}
