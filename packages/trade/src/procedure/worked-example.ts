import type { Calculation } from './calculation.ts'
import type { MethodDeclaration } from './declaration.ts'
import { evaluateCase, type ReferenceCase, type ReferenceCaseFile } from './reference-cases.ts'

/** One reference case of a method, computed here, with its working: how readings become a result. */
export type WorkedExample = {
  readonly title: string
  readonly kind: ReferenceCase['kind']
  readonly source: string
  /** Designation and year of the edition that it is computed by. */
  readonly designation: string
  readonly year: string
  readonly inputs: readonly { readonly name: string; readonly value: string; readonly unit: string | null }[]
  readonly results: readonly WorkedResult[]
  /** How many further cases of the method the own validation runs. */
  readonly others: number
}

export type WorkedResult = {
  readonly key: string
  readonly label: string
  /** Full digits; null for a class. */
  readonly value: string | null
  readonly unit: string | null
  readonly displayDecimals: number
  /** The class, in words; null for a number. */
  readonly choice: string | null
  readonly calculation: Calculation
}

/**
 * The case that shows a method best: the first that gives a result, one from a document before a constructed one. Undefined
 * where no case gives any.
 */
export function workedExample(
  method: MethodDeclaration,
  files: readonly ReferenceCaseFile[],
): WorkedExample | undefined {
  const cases = files.filter((file) => file.method === method.key).flatMap((file) => file.cases)
  const ordered = [...cases.filter(({ kind }) => kind === 'published'), ...cases]
  for (const item of ordered) {
    const results = resultsOf(method, item)
    if (results.length === 0) continue
    const edition = method.editions.at(-1)
    return {
      title: item.title,
      kind: item.kind,
      source: item.source,
      designation: edition?.designation ?? '',
      year: edition?.year ?? '',
      inputs: caseInputs(method, item),
      results,
      others: cases.length - 1,
    }
  }
  return undefined
}

function resultsOf(method: MethodDeclaration, item: ReferenceCase): readonly WorkedResult[] {
  const { results, choices = [] } = evaluateCase(method, item)
  return [
    ...results.map(({ key, label, value, unit, displayDecimals, calculation }) => ({
      ...{ key, label, value, unit, displayDecimals, calculation },
      choice: null,
    })),
    ...choices.map(({ key, label, choice, calculation }) => ({
      ...{ key, label, calculation },
      value: null,
      unit: null,
      displayDecimals: 0,
      choice: choiceWords(method, key, choice),
    })),
  ]
}

function choiceWords(method: MethodDeclaration, key: string, choice: string): string {
  const choices = method.results.find((result) => result.key === key)?.choices
  return choices?.find((one) => one.key === choice)?.label ?? choice
}

/** What goes into a case, each named as the bench names it, with its digits as given or its class in words. */
export function caseInputs(
  method: MethodDeclaration,
  { readings, factors = [], inputs = {} }: ReferenceCase,
): WorkedExample['inputs'] {
  return [
    ...readings.map(({ step: stepKey, key, repeat, value, unit }) => {
      const step = method.steps.find((one) => one.key === stepKey)
      const reading = step?.readings.find((one) => one.key === key)
      const choice = reading?.choices?.find((one) => one.key === value)
      const name = `${step?.title ?? stepKey}: ${reading?.label ?? key}${repeat === undefined ? '' : `, ${repeat}`}`
      return { name, value: choice?.label ?? value, unit: choice ? null : unit }
    }),
    ...factors.map(({ value, unit }) => ({ name: 'Factor of the machine, for each g', value, unit })),
    ...Object.entries(inputs).map(([key, { value, unit }]) => ({ name: inWords(key), value, unit })),
  ]
}

function inWords(key: string): string {
  return key.charAt(0).toUpperCase() + key.slice(1).replaceAll('-', ' ')
}
