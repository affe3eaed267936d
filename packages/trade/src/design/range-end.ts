import { decimal, Decimal } from '../quantity/decimal.ts'
import type { Curve, CurveCrossing, CurveMean } from './curve.ts'

/** Residual binder that the specification allows, in the unit of x; null where it names no edge. */
export type RangeBand = { readonly from: string | null; readonly to: string | null; readonly source: string }

export type Side = 'minimum' | 'maximum'

/** How one end comes out, before words. */
export type EndFinding =
  /** A crossing inside the tested span and the band. */
  | { readonly kind: 'crossing'; readonly value: string; readonly curve: Curve; readonly crossing: CurveCrossing }
  /** The band's edge: tested contents reach it, or a crossing outside the band gives way to it. */
  | {
      readonly kind: 'band'
      readonly value: string
      readonly crossed: { curve: Curve; crossing: CurveCrossing } | null
    }
  /** Nothing tested sets it, and the band's edge is not reached; `within` is a crossing that another curve does not reach. */
  | {
      readonly kind: 'open'
      readonly lastTested: CurveMean
      readonly curve: Curve
      readonly within: { curve: Curve; crossing: CurveCrossing } | null
    }
  /** No tested content meets these limits; `extend` when the band goes on on the passing side of one of them. */
  | { readonly kind: 'none'; readonly failing: readonly Curve[]; readonly extend: readonly Curve[] }

/**
 * One end of the range from all curves. Its own curves decide: abrasion for the minimum, adhesion for the maximum; a curve
 * of the other side bounds it only where it turns back through its own limit.
 */
export function findEnd(side: Side, curves: readonly Curve[], band: RangeBand): EndFinding {
  const tested = curves.filter((curve) => curve.usable)
  const own = tested.filter((curve) => curve.bears === side)
  const failing = own.filter((curve) => !curve.stretch)
  if (tested.length === 0 || failing.length > 0)
    return { kind: 'none', failing, extend: failing.filter((curve) => bandGoesOn(side, curve, band)) }
  const edge = side === 'minimum' ? band.from : band.to
  const asked = curves.some((curve) => curve.bears === side && curve.limit !== null)
  const waiting = curves.some((curve) => curve.bears === side && curve.limit !== null && !curve.usable)
  const reaching = asked && own.length > 0 ? own : tested
  const set = strictest(
    side,
    tested.flatMap((curve) => crossingAt(side, curve)),
  )
  if (set) {
    const outside = edge !== null && beyond(side, edge, set.crossing.x)
    const short = own.filter((curve) => !endAt(side, curve)?.crossing && !reaches(side, curve, set.crossing))
    const value = outside ? edge : set.crossing.x
    const unreached = short.filter((curve) => !reachesValue(side, curve, value))
    if (unreached.length > 0) return open(side, unreached, set)
    return outside ? { kind: 'band', value: edge, crossed: set } : { kind: 'crossing', value, ...set }
  }
  if (edge !== null && !waiting && reaching.every((curve) => reachesValue(side, curve, edge)))
    return { kind: 'band', value: edge, crossed: null }
  return open(side, reaching, null)
}

/** The content up to which something is known at this end: its value, or the last tested content of an open one. */
export function knownTo(end: EndFinding): string | null {
  if (end.kind === 'none') return null
  return end.kind === 'open' ? end.lastTested.x : end.value
}

/** Whether every tested content of a curve lies outside the band. */
export function outsideBand(
  { means }: { readonly means: readonly Pick<CurveMean, 'x'>[] },
  { from, to }: RangeBand,
): boolean {
  return means.every(({ x }) => (from !== null && decimal(x).lt(from)) || (to !== null && decimal(x).gt(to)))
}

function endAt(side: Side, { stretch }: Curve) {
  return side === 'minimum' ? stretch?.from : stretch?.to
}

function crossingAt(side: Side, curve: Curve) {
  const crossing = endAt(side, curve)?.crossing
  return crossing ? [{ curve, crossing }] : []
}

/** The greatest for a minimum, the least for a maximum; the first curve where two are equal. */
function strictest<T extends { readonly crossing: CurveCrossing }>(side: Side, found: readonly T[]): T | undefined {
  return found.reduce<T | undefined>(
    (best, next) => (best && !beyond(side, next.crossing.x, best.crossing.x) ? best : next),
    undefined,
  )
}

/** Whether `a` is the stricter end: greater for a minimum, smaller for a maximum. */
function beyond(side: Side, a: string, b: string): boolean {
  return side === 'minimum' ? decimal(a).gt(b) : decimal(a).lt(b)
}

function outermost(side: Side, { means }: Curve): CurveMean | undefined {
  return side === 'minimum' ? means[0] : means.at(-1)
}

function reachesValue(side: Side, curve: Curve, value: string): boolean {
  const last = outermost(side, curve)
  return last !== undefined && !beyond(side, last.x, value)
}

/**
 * A curve without a crossing was tested as far out as the content beyond another curve's crossing. Contents are compared by
 * their targets: as weighed, the same mix differs a little from curve to curve.
 */
function reaches(side: Side, curve: Curve, { lean, rich }: CurveCrossing): boolean {
  const last = outermost(side, curve)
  const outer = side === 'minimum' ? lean : rich
  return last !== undefined && !beyond(side, last.emulsionPercent, outer.emulsionPercent)
}

function bandGoesOn(side: Side, { means }: Curve, { from, to }: RangeBand): boolean {
  const contents = means.map(({ x }) => x)
  return side === 'minimum'
    ? to === null || Decimal.max(...contents).lt(to)
    : from === null || Decimal.min(...contents).gt(from)
}

function open(
  side: Side,
  curves: readonly Curve[],
  within: { curve: Curve; crossing: CurveCrossing } | null,
): EndFinding {
  const lasts = curves.flatMap((curve) => {
    const lastTested = outermost(side, curve)
    return lastTested ? [{ curve, lastTested }] : []
  })
  const nearest = lasts.reduce((best, next) => (beyond(side, next.lastTested.x, best.lastTested.x) ? next : best))
  return { kind: 'open', ...nearest, within }
}
