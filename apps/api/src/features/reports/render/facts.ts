import { styles, type TextStyle } from './paper.ts'
import type { Sheet } from './sheet.ts'

/** Named facts, one a line: the name quiet on the left, what it is beside it. Facts without words are left out. */
export function drawFacts(
  sheet: Sheet,
  facts: readonly (readonly [name: string, text: string])[],
  { nameWidth = 118, style = styles.body }: { nameWidth?: number; style?: TextStyle } = {},
): void {
  for (const [name, text] of facts.filter(([, value]) => value !== '')) {
    const names = sheet.linesOf(name, styles.quiet, nameWidth - 8)
    const lines = sheet.linesOf(text, style, sheet.width - nameWidth)
    const height = Math.max(names.length * styles.quiet.leading, lines.length * style.leading)
    sheet.need(Math.min(height, sheet.full))
    sheet.tag('P', () => {
      sheet.drawLines(names, styles.quiet, { x: sheet.left, y: sheet.y + 0.9, width: nameWidth })
      sheet.drawLines(lines, style, { x: sheet.left + nameWidth, y: sheet.y, width: sheet.width - nameWidth })
    })
    sheet.y += height + 1.6
  }
}
