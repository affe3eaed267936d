import { fonts, styles, type TextStyle } from './paper.ts'
import type { Sheet } from './sheet.ts'

export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number }
export type Spot = { readonly x: number; readonly y: number; readonly align?: 'left' | 'right' | 'centre' }
export type LabelLook = { readonly colour?: string; readonly strong?: boolean; readonly quiet?: boolean }

/**
 * Places the words of a chart: of several spots, a label takes the one that covers least of what is drawn or written
 * already; the first spot wins a draw.
 */
export function createChartLabels(sheet: Sheet, frame: Box) {
  const taken: Box[] = []
  const overlap = (one: Box, other: Box) => {
    const across = Math.min(one.x + one.width, other.x + other.width) - Math.max(one.x, other.x)
    const down = Math.min(one.y + one.height, other.y + other.height) - Math.max(one.y, other.y)
    return across > 0 && down > 0 ? across * down : 0
  }
  const outside = (box: Box) => box.width * box.height - overlap(box, frame)
  return {
    /** Something drawn that labels should keep clear of. */
    occupy: (box: Box) => {
      taken.push(box)
    },
    /** A straight stroke that labels should keep clear of. */
    occupyLine: (from: Spot, to: Spot) => {
      const steps = Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 4)
      for (let step = 0; step <= steps; step += 1) {
        const part = steps === 0 ? 0 : step / steps
        const [x, y] = [from.x + (to.x - from.x) * part, from.y + (to.y - from.y) * part]
        taken.push({ x: x - 1.5, y: y - 1.5, width: 3, height: 3 })
      }
    },
    write: (text: string, spots: readonly Spot[], look: LabelLook = {}) => {
      const base = look.quiet ? styles.chartQuiet : styles.chart
      const style: TextStyle = {
        ...base,
        colour: look.colour ?? base.colour,
        font: look.strong ? fonts.tableStrong : base.font,
      }
      const shown = sheet.visible(text)
      const width = sheet.measure(shown, style)
      const boxes = spots.map(({ x, y, align }): Box => {
        const left = align === 'right' ? x - width : align === 'centre' ? x - width / 2 : x
        return { x: left, y, width, height: style.leading }
      })
      const cost = (box: Box) => taken.reduce((sum, other) => sum + overlap(box, other), 0) + 4 * outside(box)
      const costs = boxes.map(cost)
      const box = boxes[costs.indexOf(Math.min(...costs))]
      if (box === undefined) return
      taken.push(box)
      sheet.drawLines([shown], style, box)
    },
  }
}
