import type { Calculation } from './calculation.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import type {
  ComputedChoice,
  ComputedResult,
  EditionParameter,
  Evaluation,
  EvaluationSetup,
  ObservedReading,
  ResultRefusal,
  StepDeclaration,
} from './declaration.ts'
import { requiredSlots, slotName } from './progress.ts'

/** Results that stand or fall together: the keys named are refused when the formula throws. */
export type Formula = {
  readonly keys: readonly string[]
  readonly compute: () => readonly (ComputedResult | ComputedChoice)[]
}

/**
 * Evaluates formulas over the readings of a method's steps. Nothing is computed while a required reading is missing; a
 * formula that throws a MethodInputError becomes one refusal for each of its keys; any other error is a fault and passes.
 */
export function evaluateFormulas(
  steps: readonly StepDeclaration[],
  readings: readonly ObservedReading[],
  formulas: readonly Formula[],
): Evaluation {
  const taken = new Set(readings.map(slotName))
  const missing = steps
    .flatMap(requiredSlots)
    .map(slotName)
    .filter((slot) => !taken.has(slot))
  if (missing.length > 0) return { results: [], refusals: [], missing }
  const outcomes = formulas.map(attempt)
  const found = outcomes.flatMap(({ results }) => results)
  const choices = found.filter((one): one is ComputedChoice => 'choice' in one)
  return {
    results: found.filter((one): one is ComputedResult => !('choice' in one)),
    ...(choices.length > 0 ? { choices } : {}),
    refusals: outcomes.flatMap(({ refusals }) => refusals),
    missing: [],
  }
}

/** The result that a calculation ends in: value and unit are those of its last line. */
export function resultOf(
  calculation: Calculation,
  text: Pick<ComputedResult, 'key' | 'label' | 'displayDecimals'>,
): ComputedResult {
  const last = calculation.lines.at(-1)
  if (!last) throw new Error(`The calculation of ${text.key} has no line.`)
  return { ...text, value: last.value, unit: last.unit, calculation }
}

/**
 * The reading of a slot.
 * @throws MethodInputError `missing-reading`
 */
export function readingAt(
  readings: readonly ObservedReading[],
  step: string,
  key: string,
  repeat = 1,
): ObservedReading {
  const found = readings.find((reading) => reading.step === step && reading.key === key && reading.repeat === repeat)
  if (!found)
    throw new MethodInputError('missing-reading', `The reading ${slotName({ step, key, repeat })} is not there yet.`)
  return found
}

/**
 * An entered value or another result that the formula needs: moisture, residue.
 * @throws MethodInputError `missing-setup`
 */
export function setupInput(setup: EvaluationSetup, key: string, words: string) {
  const found = setup.inputs[key]
  if (!found) throw new MethodInputError('missing-setup', `${words} is not on record yet: enter it in the design.`)
  return found
}

/**
 * A parameter of the pinned edition.
 * @throws MethodInputError `missing-setup`
 */
export function parameterOf(setup: Pick<EvaluationSetup, 'parameters'>, key: string): EditionParameter {
  const found = setup.parameters[key]
  if (!found) throw new MethodInputError('missing-setup', `The edition holds no “${key}”: add it to the edition.`)
  return found
}

function attempt({ keys, compute }: Formula): {
  readonly results: readonly (ComputedResult | ComputedChoice)[]
  readonly refusals: readonly ResultRefusal[]
} {
  try {
    return { results: compute(), refusals: [] }
  } catch (error) {
    if (!(error instanceof MethodInputError)) throw error
    const { code, message: text, detail } = error
    return { results: [], refusals: keys.map((key) => ({ key, code, text, detail })) }
  }
}
