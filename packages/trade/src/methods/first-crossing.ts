import type { Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'

/** A point of a series that rises through a target: where it was read, and what was read there. */
export type SeriesPoint = { readonly x: Decimal; readonly y: Decimal }

/** The neighbours that a target lies between, or the point that lies on it. */
export type Crossing<P> = { readonly on: P } | { readonly before: P; readonly after: P }

/** The sentences for a target that the series does not enclose, and for two readings at one place. */
export type CrossingWords<P> = {
  /** The first point is beyond the target already. */
  readonly startsAbove: (first: P) => string
  /** No point reaches it. */
  readonly staysBelow: (highest: P) => string
  readonly samePlace: (one: P, other: P) => string
}

/**
 * Where a series first reaches a target: the points in order of x, in whatever order they came. A later fall back below
 * does not move it.
 * @throws MethodInputError `not-bracketed` where no two neighbours enclose the target, `inconsistent` for two points at one x
 */
export function firstCrossing<P extends SeriesPoint>(
  points: readonly P[],
  target: Decimal,
  words: CrossingWords<P>,
): Crossing<P> {
  const ordered = points.toSorted((one, other) => one.x.cmp(other.x))
  const twice = ordered.findIndex((point, index) => index > 0 && ordered[index - 1]!.x.eq(point.x))
  if (twice > 0) throw new MethodInputError('inconsistent', words.samePlace(ordered[twice - 1]!, ordered[twice]!))
  const reached = ordered.findIndex(({ y }) => y.gte(target))
  const first = ordered[reached]
  if (!first) {
    const highest = ordered.reduce((most, point) => (point.y.gt(most.y) ? point : most))
    throw new MethodInputError('not-bracketed', words.staysBelow(highest))
  }
  if (first.y.eq(target)) return { on: first }
  if (reached === 0) throw new MethodInputError('not-bracketed', words.startsAbove(first))
  return { before: ordered[reached - 1]!, after: first }
}
