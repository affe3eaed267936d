import type {
  ConditionDeclaration,
  ReadingDeclaration,
  StepDeclaration,
  WindowDeclaration,
} from '@curebook/trade/procedure/declaration'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import type { Parameter, Parameters } from './editions.ts'

export type Say = (key: string, values?: Readonly<Record<string, string | number>>) => string
export type Format = {
  readonly digits: (digits: string) => string
  readonly quantity: (digits: string, unit?: string) => string
}

/** "60 ± 3 °C" of a condition, by the bounds of an edition; undefined where the edition does not hold it. */
export function conditionValue(
  { targetParameter, toleranceParameter }: ConditionDeclaration,
  parameters: Parameters,
  format: Format,
): string | undefined {
  const target = parameters[targetParameter]
  if (target === undefined) return undefined
  const tolerance = toleranceParameter === undefined ? undefined : parameters[toleranceParameter]
  return tolerance === undefined
    ? format.quantity(target.value, target.unit)
    : `${format.digits(target.value)} ± ${format.quantity(tolerance.value, tolerance.unit)}`
}

/** What bounds an act, as a sentence with its durations: "at least 60 min and at most 75 min after “In the bath”". */
export function windowSentence(
  window: WindowDeclaration,
  steps: readonly StepDeclaration[],
  parameters: Parameters,
  format: Format,
  say: Say,
): string {
  const bound = (key: string | undefined) => (key === undefined ? undefined : parameters[key])
  const text = (parameter: Parameter) => format.quantity(parameter.value, parameter.unit)
  const [earliest, latest] = [bound(window.earliestParameter), bound(window.latestParameter)]
  const act = actName(steps, window.step, window.act)
  const after = actName(steps, window.after.step, window.after.act)
  if (earliest !== undefined && latest !== undefined)
    return say('methods.window.between', { act, after, from: text(earliest), to: text(latest) })
  if (earliest !== undefined) return say('methods.window.atLeast', { act, after, from: text(earliest) })
  if (latest !== undefined) return say('methods.window.atMost', { act, after, to: text(latest) })
  return say('methods.window.open', { act, after })
}

/** The words of the button that confirms an act; a reading is named by its step. */
export function actName(steps: readonly StepDeclaration[], key: string, act: 'start' | 'end' | 'reading'): string {
  const step = steps.find((one) => one.key === key)
  if (step === undefined) return key
  return act === 'reading' ? step.title : (step.eventLabels?.[act] ?? step.title)
}

/** What is known of a reading beforehand, each as one phrase. */
export function readingPhrases(
  reading: ReadingDeclaration,
  parameters: Parameters,
  format: Format,
  say: Say,
): readonly string[] {
  const { unit, resolution, plausible, choices, instrument, repeats = 1, target, optional = false } = reading
  const tolerance = target === undefined ? undefined : parameters[target.toleranceParameter]
  const shown = (digits: string) => format.quantity(digits, unit)
  return [
    writtenUnit(unit) === '' ? undefined : say('methods.reading.unit', { unit: writtenUnit(unit) }),
    choices === undefined ? undefined : choices.map(({ label }) => label).join(' / '),
    repeats > 1 ? say('methods.reading.repeats', { count: repeats }) : undefined,
    resolution === undefined || unit === 'count' ? undefined : say('methods.reading.step', { step: shown(resolution) }),
    tolerance === undefined
      ? undefined
      : say('methods.reading.target', { tolerance: format.quantity(tolerance.value, tolerance.unit) }),
    plausible === undefined
      ? undefined
      : say('methods.reading.plausible', {
          from: format.digits(plausible.from),
          to: shown(plausible.to),
          source: plausible.source,
        }),
    instrument === undefined ? undefined : say(`methods.instrument.${instrument}`),
    optional ? say('methods.reading.optional') : undefined,
  ].filter((phrase) => phrase !== undefined)
}
