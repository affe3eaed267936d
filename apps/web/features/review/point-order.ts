import type { ReviewPoint } from '@curebook/contract/review'

/** How many points are still open: those that block, and those that wait for a word. */
export function openPoints(points: readonly Pick<ReviewPoint, 'blocking' | 'acknowledged'>[]) {
  return {
    blocking: points.filter(({ blocking }) => blocking).length,
    waiting: points.filter(({ blocking, acknowledged }) => !blocking && acknowledged === null).length,
    settled: points.filter(({ blocking, acknowledged }) => !blocking && acknowledged !== null).length,
  }
}

/** What blocks first, then what waits for a word, then what has one; each in the order in which it was given. */
export function inOrder<Point extends Pick<ReviewPoint, 'blocking' | 'acknowledged'>>(
  points: readonly Point[],
): readonly Point[] {
  const rank = ({ blocking, acknowledged }: Point) => (blocking ? 0 : acknowledged === null ? 1 : 2)
  return points
    .map((point, index) => ({ point, index }))
    .sort((a, b) => rank(a.point) - rank(b.point) || a.index - b.index)
    .map(({ point }) => point)
}

type Listed = Pick<ReviewPoint, 'kind' | 'blocking' | 'acknowledged'>
export type PointGroups<Point> = {
  readonly unfinished: readonly Point[]
  readonly open: readonly Point[]
  readonly untested: readonly Point[]
  readonly settled: readonly Point[]
}

/**
 * The list as it is shown: unfinished specimens are one entry with their count, what was not tested and waits for a word
 * can be settled together, everything else stands by itself: what is open, and last what is settled.
 */
export function pointGroups<Point extends Listed>(points: readonly Point[]): PointGroups<Point> {
  const isUntested = ({ kind, blocking }: Point) => kind === 'not-tested' && !blocking
  const settled = points.filter(({ blocking, acknowledged }) => !blocking && acknowledged !== null)
  const unfinished = points.filter(({ kind }) => kind === 'unfinished')
  const untested = points.filter((point) => isUntested(point) && !settled.includes(point))
  const elsewhere = new Set([...settled, ...unfinished, ...untested])
  return { unfinished, open: inOrder(points.filter((point) => !elsewhere.has(point))), untested, settled }
}

/** Codes typed one after another, parted by spaces, commas or lines. */
export function codesOf(typed: string): readonly string[] {
  return [
    ...new Set(
      typed
        .toUpperCase()
        .split(/[\s,;]+/)
        .filter((code) => code !== ''),
    ),
  ]
}
