import type { MethodDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { progressOf } from '@curebook/trade/procedure/progress'
import { invalidField } from '#platform/problem'
import { endedStates, recordedEvents, takenReadings, type TestRecord } from './test-record.ts'

export type WantedAct = { readonly stepKey: string; readonly kind: 'start' | 'end' }

/** @throws AppError `invalid-input` when the method has no such act */
export function stepOf(method: MethodDeclaration, { stepKey, kind }: WantedAct): StepDeclaration {
  const step = method.steps.find(({ key }) => key === stepKey)
  if (!step) throw invalidField('stepKey', `${method.name} has no step “${stepKey}”.`)
  if (!step.events.includes(kind)) throw invalidField('kind', `“${step.title}” has no ${kind} to confirm.`)
  return step
}

/** Why an act cannot be confirmed for this test, in a sentence; null when it can. */
export function refusalOf(
  method: MethodDeclaration,
  record: TestRecord,
  { stepKey, kind }: WantedAct,
  effectiveAt: Date,
): string | null {
  const name = `${record.label} (${record.code})`
  const step = stepOf(method, { stepKey, kind })
  if (endedStates.includes(record.state)) return `${name} is ${record.state}: nothing more is done with it.`
  const word = step.eventLabels?.[kind] ?? kind
  const present = record.events.find((event) => event.step === stepKey && event.kind === kind)
  if (present) return `${name}: “${word}” is confirmed already.`
  const locked =
    progressOf(method, recordedEvents(record), takenReadings(record)).steps.find(({ key }) => key === stepKey)
      ?.lockedBy ?? []
  if (kind === 'start' && locked.length > 0) {
    const titles = locked
      .map((key) => `“${method.steps.find((other) => other.key === key)?.title ?? key}”`)
      .join(' and ')
    return `${name}: ${titles} must be done first, or its reading is lost for good.`
  }
  if (kind === 'end' && step.events.includes('start')) {
    const start = record.events.find((event) => event.step === stepKey && event.kind === 'start')
    const startWord = step.eventLabels?.start ?? 'start'
    if (!start) return `${name}: confirm “${startWord}” first, with the time at which it happened.`
    if (Date.parse(start.at) > effectiveAt.getTime())
      return `${name}: “${word}” would lie before “${startWord}”. Give the time at which it happened.`
  }
  return null
}
