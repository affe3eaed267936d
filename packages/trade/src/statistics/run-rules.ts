import type { Decimal } from '../quantity/decimal.ts'
import { positiveOf, valueOf, valuesOf } from './values.ts'

/** Which set of rules a chart is read by. Both sets are from memory, unverified. */
export type RunRuleSet = 'Western Electric' | 'Nelson'

export type RunFinding = {
  readonly rules: RunRuleSet
  readonly rule: string
  /** Places of the points that make the signal, the one that completes it last. */
  readonly points: readonly number[]
}

type Rule = {
  readonly words: string
  /** How many points are looked at together. */
  readonly span: number
  /** Whether the points make a signal, and which of them. Deviations are in σ from the centre, oldest first. */
  readonly signal: (deviations: readonly number[]) => readonly number[] | null
}

const sides = [1, -1] as const

/** `needed` of the span beyond so many σ on one side, the last among them. */
function beyond(needed: number, span: number, sigmas: number, words: string): Rule {
  const signal = (deviations: readonly number[]) => {
    for (const side of sides) {
      const hits = deviations.flatMap((deviation, index) => (deviation * side > sigmas ? [index] : []))
      if (hits.length >= needed && hits.at(-1) === deviations.length - 1) return hits
    }
    return null
  }
  return { words, span, signal }
}

/** The whole span is as asked. */
function all(span: number, words: string, holds: (deviations: readonly number[]) => boolean): Rule {
  return { words, span, signal: (deviations) => (holds(deviations) ? deviations.map((_, index) => index) : null) }
}

const steps = (deviations: readonly number[]) => deviations.slice(1).map((value, index) => value - deviations[index]!)
const oneSide = (deviations: readonly number[]) =>
  sides.some((side) => deviations.every((deviation) => deviation * side > 0))

/** From memory, unverified, as both sets are. */
const common = [
  beyond(1, 1, 3, '1 point beyond 3 σ'),
  beyond(2, 3, 2, '2 of 3 points beyond 2 σ on one side'),
  beyond(4, 5, 1, '4 of 5 points beyond 1 σ on one side'),
]

const ruleSets: Readonly<Record<RunRuleSet, readonly Rule[]>> = {
  // Western Electric Company, Statistical Quality Control Handbook, 1956.
  'Western Electric': [...common, all(8, '8 points in a row on one side of the centre', oneSide)],
  // L. S. Nelson, Journal of Quality Technology 16, 1984.
  Nelson: [
    ...common,
    all(9, '9 points in a row on one side of the centre', oneSide),
    all(6, '6 points in a row rising or falling', (deviations) =>
      sides.some((side) => steps(deviations).every((step) => step * side > 0)),
    ),
    all(14, '14 points in a row going up and down in turn', (deviations) => {
      const turns = steps(deviations)
      return turns.slice(1).every((step, index) => step * turns[index]! < 0)
    }),
    all(15, '15 points in a row within 1 σ', (deviations) => deviations.every((deviation) => Math.abs(deviation) < 1)),
    all(8, '8 points in a row beyond 1 σ on either side', (deviations) =>
      deviations.every((deviation) => Math.abs(deviation) > 1),
    ),
  ],
}

/**
 * Signals on a chart by a named set of run rules, in the order in which they are complete. On a line is not beyond it.
 * @throws MethodInputError `missing-reading` without points, `not-positive` for a σ of 0 or less
 */
export function runFindings(
  values: readonly (string | Decimal)[],
  centre: string,
  sigma: string,
  rules: RunRuleSet,
): readonly RunFinding[] {
  const middle = valueOf(centre, 'The centre')
  const width = positiveOf(sigma, 'σ')
  const deviations = valuesOf(values, 1, 'A chart needs at least one result.').map((value) =>
    value.minus(middle).div(width).toNumber(),
  )
  return deviations.flatMap((_, end) =>
    ruleSets[rules].flatMap(({ words, span, signal }) => {
      const start = end - span + 1
      const hits = start < 0 ? null : signal(deviations.slice(start, end + 1))
      return hits === null ? [] : [{ rules, rule: words, points: hits.map((index) => start + index) }]
    }),
  )
}

/** The rules of a set, in words. */
export function runRulesOf(rules: RunRuleSet): readonly string[] {
  return ruleSets[rules].map(({ words }) => words)
}
