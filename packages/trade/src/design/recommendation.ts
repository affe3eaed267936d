import { decimal, plainDigits } from '../quantity/decimal.ts'
import { displayDigits, type DecimalSign } from '../quantity/display.ts'
import type { AcceptableRange } from './acceptable-range.ts'
import type { RangeBand } from './range-end.ts'
import { residualOfEmulsion } from './residual-binder.ts'
import type { TestedSpan } from './tested-span.ts'

export type RecommendedContent = {
  /** % of dry aggregate. */
  readonly emulsionPercent: string
  readonly residuePercent: string
  /** Tolerance in residual binder, % of dry aggregate, to either side. */
  readonly toleranceResidualPercent?: string
}

export type RecommendationProblem = {
  readonly code:
    | 'nothing-tested'
    | 'outside-tested-span'
    | 'outside-band'
    | 'outside-range'
    | 'tolerance-outside-range'
    | 'tolerance-outside-band'
  /** `refuse`: no such recommendation can be kept. `say`: shown to the engineer, who may have reasons. */
  readonly weight: 'refuse' | 'say'
  readonly sentence: string
}

/**
 * What stands against a recommended content: it must lie inside both the tested span and the band of the specification. A
 * content that leaves the acceptable range, by itself or with its tolerance, is said and remains the engineer's.
 */
export function recommendationProblems(
  recommended: RecommendedContent,
  range: Pick<AcceptableRange, 'ends' | 'outcome' | 'atContent'>,
  testedSpan: TestedSpan | null,
  band: RangeBand,
  sign?: DecimalSign,
): readonly RecommendationProblem[] {
  const show = (digits: string) => displayDigits(digits, { decimals: 2, ...(sign ? { sign } : {}) })
  const residual = residualOfEmulsion(recommended.emulsionPercent, recommended.residuePercent)
  const tolerance = recommended.toleranceResidualPercent ?? '0'
  const content = `The recommended ${displayDigits(recommended.emulsionPercent, sign ? { sign } : {})} % emulsion (${show(residual)} % residual binder)`
  const found: RecommendationProblem[] = []
  const say = (code: RecommendationProblem['code'], weight: RecommendationProblem['weight'], sentence: string) =>
    found.push({ code, weight, sentence })
  const spanOf = (from: string | null, to: string | null) =>
    from !== null && to !== null
      ? `${show(from)} to ${show(to)} %`
      : from !== null
        ? `from ${show(from)} %`
        : // A specification may name no edge: nothing lies outside it, and nothing is said.
          to !== null
          ? `up to ${show(to)} %`
          : ''

  if (!testedSpan)
    say('nothing-tested', 'refuse', 'No content is tested by every test: nothing can be recommended yet.')
  else if (!isTested(recommended.emulsionPercent, residual, testedSpan))
    say(
      'outside-tested-span',
      'refuse',
      `${content} lies outside the contents tested, ${spanOf(testedSpan.from, testedSpan.to)}.`,
    )

  const bandWords = spanOf(band.from, band.to)
  const withTolerance = [decimal(residual).minus(tolerance), decimal(residual).plus(tolerance)] as const
  const [low, high] = [plainDigits(withTolerance[0]), plainDigits(withTolerance[1])]
  if (isOutside(residual, residual, band.from, band.to))
    say('outside-band', 'refuse', `${content} lies outside the band of the specification, ${bandWords}.`)
  else if (isOutside(low, high, band.from, band.to))
    say(
      'tolerance-outside-band',
      'say',
      `${content} with its tolerance, ${spanOf(low, high)}, leaves the band of the specification, ${bandWords}.`,
    )

  const { minimum, maximum } = range.ends
  const from = minimum.value ?? null
  const to = maximum.value ?? null
  if (range.outcome === 'no-range')
    say('outside-range', 'say', `${content} does not meet every limit: there is no acceptable range.`)
  else if (range.atContent?.some(({ meets }) => !meets))
    say('outside-range', 'say', `${content} does not meet every limit at the one content tested.`)
  else if (isOutside(residual, residual, from, to))
    say('outside-range', 'say', `${content} lies outside the acceptable range, ${spanOf(from, to)}.`)
  else if (isOutside(low, high, from, to))
    say(
      'tolerance-outside-range',
      'say',
      `${content} with its tolerance, ${spanOf(low, high)}, leaves the acceptable range, ${spanOf(from, to)}.`,
    )
  return found
}

/** Inside the span as weighed, or just a content that was made: the weighed content of a mix differs a little from its target. */
function isTested(emulsionPercent: string, residual: string, span: TestedSpan): boolean {
  const made = span.emulsionPercents.some((target) => decimal(target).eq(emulsionPercent))
  return made || !isOutside(residual, residual, span.from, span.to)
}

function isOutside(low: string, high: string, from: string | null, to: string | null): boolean {
  return (from !== null && decimal(low).lt(from)) || (to !== null && decimal(high).gt(to))
}
