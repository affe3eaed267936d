import type { SheetCell } from './sheet-cells.ts'

type Box = Pick<SheetCell, 'key' | 'typed' | 'written' | 'time'>
type Act = { readonly id: string; readonly time: NonNullable<Box['time']> }

/**
 * Id and time of what stands in a box, the same each time it is sent: what moves between two presses (when it is told, what
 * the device's clock is off) makes no other act. Written otherwise, it is another one.
 */
export function createBoxActs(makeId: () => string): {
  readonly of: (box: Box) => Act | undefined
  /** Refused and written nowhere: sent again, it is another act. */
  readonly forget: (box: Box) => void
} {
  const acts = new Map<string, Act>()
  const nameOf = ({ key, typed, written }: Box) => [key, typed, written].join('\n')
  return {
    of: (box) => {
      if (box.time === undefined) return undefined
      const act = acts.get(nameOf(box)) ?? { id: makeId(), time: box.time }
      acts.set(nameOf(box), act)
      return act
    },
    forget: (box) => void acts.delete(nameOf(box)),
  }
}
