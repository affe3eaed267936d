import { decimal } from '../quantity/decimal.ts'
import { checkCalculation } from './calculation-checker.ts'
import type { Evaluation, EvaluationSetup, MethodDeclaration, ObservedReading } from './declaration.ts'

/** One expected outcome: a number with the tolerance that its source's rounding allows, a class, or a refusal. */
export type ReferenceExpectation =
  | { readonly key: string; readonly unit: string; readonly value: string; readonly tolerance: string }
  | { readonly key: string; readonly refusal: string }
  | { readonly key: string; readonly choice: string }

export type ReferenceCase = {
  readonly id: string
  readonly title: string
  /** `published`: from a document; `constructed`: arithmetic done for the purpose; `invented`: a made-up design, worked by hand. */
  readonly kind: 'published' | 'constructed' | 'invented'
  readonly source: string
  readonly readings: readonly {
    readonly step: string
    readonly key: string
    readonly value: string
    readonly unit: string
    /** Which of several readings of one slot; the first where it is left out. */
    readonly repeat?: number
  }[]
  readonly factors?: readonly { readonly value: string; readonly unit: string }[]
  readonly inputs?: Readonly<Record<string, { readonly value: string; readonly unit: string }>>
  readonly expected: readonly ReferenceExpectation[]
}

/** The cases of one method: the content of a file in `reference-cases/`. */
export type ReferenceCaseFile = { readonly method: string; readonly cases: readonly ReferenceCase[] }

export type ReferenceCaseRow = {
  readonly method: string
  readonly case: string
  readonly title: string
  readonly kind: ReferenceCase['kind']
  /** What went in, each as "name value unit". */
  readonly inputs: readonly string[]
  /** What is judged, with its unit: "loss-per-area, g/m²". */
  readonly outcome: string
  readonly expected: string
  readonly tolerance: string
  /** Full digits, "refused: code", or why nothing came out. */
  readonly obtained: string
  /** Within the tolerance, and its calculation holds when re-evaluated by the independent checker. */
  readonly agrees: boolean
  readonly source: string
  /** The method's computation number; null when there is no such method. */
  readonly computation: number | null
}

/** Runs every case against the methods of this installation: one row for each expected outcome. Never throws for a case. */
export function runReferenceCases(
  methods: readonly MethodDeclaration[],
  files: readonly ReferenceCaseFile[],
): readonly ReferenceCaseRow[] {
  return files.flatMap(({ method: key, cases }) => {
    const method = methods.find((candidate) => candidate.key === key)
    return cases.flatMap((item) => rowsOf(key, method, item))
  })
}

function rowsOf(key: string, method: MethodDeclaration | undefined, item: ReferenceCase): readonly ReferenceCaseRow[] {
  const evaluation = method && evaluateCase(method, item)
  return item.expected.map((expectation) => {
    const result = evaluation?.results.find(
      (candidate) => candidate.key === expectation.key && 'unit' in expectation && candidate.unit === expectation.unit,
    )
    const found = evaluation?.choices?.find(({ key }) => key === expectation.key && 'choice' in expectation)
    const refusal = evaluation?.refusals.find((candidate) => candidate.key === expectation.key)
    const obtained =
      result?.value ??
      found?.choice ??
      (refusal ? `refused: ${refusal.code}` : evaluation ? 'no result' : 'no such method here')
    const expected = expectedWords(expectation)
    const close =
      'unit' in expectation && result
        ? decimal(result.value).minus(expectation.value).abs().lte(expectation.tolerance)
        : obtained === expected
    const holds =
      (!result || checkCalculation(result.calculation, result.value).length === 0) &&
      (!found || checkCalculation(found.calculation).length === 0)
    return {
      method: key,
      case: item.id,
      title: item.title,
      kind: item.kind,
      inputs: inputsOf(item),
      outcome: 'unit' in expectation ? `${expectation.key}, ${expectation.unit}` : expectation.key,
      expected,
      tolerance: 'tolerance' in expectation ? expectation.tolerance : '',
      obtained,
      agrees: close && holds,
      source: item.source,
      computation: method?.computation ?? null,
    }
  })
}

/** What a method makes of a case, by its newest built-in edition. */
export function evaluateCase(method: MethodDeclaration, item: ReferenceCase): Evaluation {
  return method.evaluate(item.readings.map(observed), setupOf(method, item))
}

function expectedWords(expectation: ReferenceExpectation): string {
  if ('refusal' in expectation) return `refused: ${expectation.refusal}`
  return 'choice' in expectation ? expectation.choice : expectation.value
}

function observed(reading: ReferenceCase['readings'][number], index: number): ObservedReading {
  return { id: `reading-${index + 1}`, repeat: 1, ...reading }
}

function setupOf(method: MethodDeclaration, { factors = [], inputs = {}, source }: ReferenceCase): EvaluationSetup {
  return {
    parameters: method.editions.at(-1)?.parameters ?? {},
    factors: factors.map((factor, index) => ({ id: `factor-${index + 1}`, source, ...factor })),
    inputs: Object.fromEntries(
      Object.entries(inputs).map(([key, input]) => [key, { id: `input-${key}`, source, ...input }]),
    ),
  }
}

function inputsOf({ readings, factors = [], inputs = {} }: ReferenceCase): readonly string[] {
  return [
    ...readings.map(({ step, key, value, unit }) => `${step} ${key} ${value} ${unit}`),
    ...factors.map(({ value, unit }) => `factor ${value} ${unit} per g`),
    ...Object.entries(inputs).map(([key, { value, unit }]) => `${key} ${value} ${unit}`),
  ]
}
