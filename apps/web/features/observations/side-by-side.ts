import type { DesignObservations } from '@curebook/contract/observations'
import type { Curve } from '@curebook/contract/range'
import { compareDigits } from '@curebook/trade/quantity/digit-conversion'

type Seen = DesignObservations['items'][number]
/** One specimen as it lies beside its replicates: what it lost, and what was seen. */
export type LaidOut = {
  readonly testId: string
  readonly label: string
  readonly code: string
  readonly y: string
  readonly counts: boolean
  readonly seen: readonly Seen[]
}
export type ContentColumn = { readonly emulsionPercent: string; readonly specimens: readonly LaidOut[] }

/** The specimens of a curve by content, leanest first, in the order of their labels; those that do not count among them. */
export function sideBySide(curve: Curve, seen: readonly Seen[]): readonly ContentColumn[] {
  const points = [
    ...curve.points.map((point) => ({ ...point, counts: true })),
    ...curve.excluded.map((point) => ({ ...point, counts: false })),
  ]
  const contents = [...new Set(points.map(({ emulsionPercent }) => emulsionPercent))].sort(compareDigits)
  return contents.map((emulsionPercent) => ({
    emulsionPercent,
    specimens: points
      .filter((point) => point.emulsionPercent === emulsionPercent)
      .sort((a, b) => (a.label < b.label ? -1 : 1))
      .map(({ testId, label, code, y, counts }) => ({
        testId,
        label,
        code,
        y,
        counts,
        seen: seen.filter(({ specimenTestId }) => specimenTestId === testId),
      })),
  }))
}
