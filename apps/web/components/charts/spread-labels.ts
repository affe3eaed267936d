import type { ChartModel } from '@curebook/contract/chart-model'

type Named = { readonly series: readonly Pick<ChartModel['series'][number], 'tag'>[] }

/** Height of one name beside a line, and how far from the frame names begin, in pixels. */
export const heightOfName = 15
export const awayOfNames = 16

/** Room that the names beside the lines take at the right, in pixels; none where no line bears one. */
export function roomForNames({ series }: Named): number {
  const longest = Math.max(0, ...series.map(({ tag }) => tag?.length ?? 0))
  return longest === 0 ? 0 : Math.min(160, longest * 8.5 + awayOfNames)
}

/** Height that a drawing must have so that no name stands on another, in pixels: theirs, and that of the axis below. */
export function heightForNames({ series }: Named): number {
  return series.filter(({ tag }) => tag !== undefined).length * heightOfName + 60
}

/**
 * Where labels stand beside the heights that they name, in the order given: as near as may be, `gap` apart, between `from`
 * and `to`. Where there is no room for that they share what there is alike.
 */
export function spreadLabels(
  wanted: readonly number[],
  { from, to, gap }: { readonly from: number; readonly to: number; readonly gap: number },
): readonly number[] {
  if (wanted.length === 0) return []
  const apart = Math.min(gap, (to - from) / Math.max(1, wanted.length - 1))
  const order = wanted.map((at, index) => ({ at, index })).toSorted((a, b) => a.at - b.at)
  const placed: number[] = []
  order.forEach(({ at }, rank) => {
    const lowest = rank === 0 ? from : placed[rank - 1]! + apart
    placed.push(Math.max(at, lowest))
  })
  // What was pushed beyond the end goes back, and pushes what stands before it.
  for (let rank = placed.length - 1, highest = to; rank >= 0; rank -= 1, highest = placed[rank + 1]! - apart)
    placed[rank] = Math.min(placed[rank]!, highest)
  const places = [...wanted]
  order.forEach(({ index }, rank) => {
    places[index] = placed[rank]!
  })
  return places
}
