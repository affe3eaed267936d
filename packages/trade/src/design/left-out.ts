import { displayDigits } from '../quantity/display.ts'
import { type AcceptableRange, type RangeEnd, type RangeInput, rangeOfCurves } from './acceptable-range.ts'
import { analyseCurve, type Curve, type CurveInput, type CurvePoint } from './curve.ts'

/** One specimen's weight in the range: what stands, what would stand, and both in a sentence. */
export type LeftOut = {
  readonly testId: string
  readonly label: string
  /** Whether any end of the range, or its outcome, would be another; compared unrounded. */
  readonly changesRange: boolean
  readonly without: AcceptableRange
  readonly sentence: string
}

/**
 * What the acceptable range would be without one specimen: everything is computed again from the points that are left.
 * Nothing is left out by this; it is said beside a doubtful specimen, so that a reader can weigh the doubt.
 * @param standing the range with it, from the same input
 * @returns null where the test is on no curve: it does not count in the range as it is
 */
export function leftOut(input: RangeInput, standing: AcceptableRange, testId: string): LeftOut | null {
  const own = standing.curves.find(({ points }) => points.some((point) => point.testId === testId))
  const point = own?.points.find((candidate) => candidate.testId === testId)
  if (!own || !point) return null
  // The other curves stay as they were analysed.
  const without = rangeOfCurves(
    standing.curves.map((curve) => (curve === own ? analyseCurve(withoutPoint(input, own.key, testId)) : curve)),
    input,
  )
  const changesRange =
    without.outcome !== standing.outcome ||
    isOther(standing.ends.minimum, without.ends.minimum) ||
    isOther(standing.ends.maximum, without.ends.maximum)
  return {
    testId,
    label: point.label,
    changesRange,
    without,
    sentence: sentenceOf(input, own, point, standing, without),
  }
}

function withoutPoint({ curves }: RangeInput, key: string, testId: string): CurveInput {
  const curve = curves.find((candidate) => candidate.key === key)!
  return { ...curve, points: curve.points.filter((point) => point.testId !== testId) }
}

/** The same input without the points of these tests: what a range asked "what if" is computed from. */
export function withoutTests(input: RangeInput, testIds: ReadonlySet<string>): RangeInput {
  const curves = input.curves.map((curve) => ({
    ...curve,
    points: curve.points.filter(({ testId }) => !testIds.has(testId)),
  }))
  return { ...input, curves }
}

function isOther(before: RangeEnd, after: RangeEnd): boolean {
  return before.kind !== after.kind || before.value !== after.value
}

function sentenceOf(
  { sign }: RangeInput,
  own: Curve,
  { label, mixId }: CurvePoint,
  standing: AcceptableRange,
  without: AcceptableRange,
): string {
  // Three decimals for the eye: common practice, no source.
  const show = (digits: string) => displayDigits(digits, { decimals: 3, ...(sign ? { sign } : {}) })
  const left = without.curves.find(({ key }) => key === own.key)
  const n = left?.means.find((mean) => mean.mixId === mixId)?.n ?? 0
  const fewer = ` n = ${n} would be left at this content.`
  if (without.outcome !== standing.outcome) return `Without ${label}: ${without.sentence}${fewer}`
  const ends = (['minimum', 'maximum'] as const).flatMap((side) => {
    const [before, after] = [standing.ends[side], without.ends[side]]
    if (!isOther(before, after)) return []
    if (before.value === undefined || after.value === undefined) return [after.sentence.replace(/\.$/, '')]
    return [`${side} ${show(after.value)} instead of ${show(before.value)} % residual`]
  })
  const crossing =
    own.crossing && left?.crossing && own.crossing.x !== left.crossing.x
      ? ` ${own.label} alone would meet its limit at ${show(left.crossing.x)} instead of ${show(own.crossing.x)} %.`
      : ''
  return ends.length > 0
    ? `Without ${label}: ${ends.join('; ')}.${fewer}`
    : `Without ${label} the range stays as it is.${crossing}${fewer}`
}
