import { create } from 'qrcode'
import { colours } from './paper.ts'
import type { Sheet } from './sheet.ts'

/** Draws an address as a square of dark cells with its quiet margin of four cells, all one vector path. */
export function drawCheckSquare(
  sheet: Sheet,
  address: string,
  at: { x: number; y: number; size: number; alt: string },
): void {
  const { modules } = create(address, { errorCorrectionLevel: 'M' })
  const cell = at.size / (modules.size + 8)
  const draw = () => {
    for (let row = 0; row < modules.size; row += 1)
      for (let column = 0; column < modules.size; column += 1)
        if (modules.get(row, column)) sheet.doc.rect(at.x + (column + 4) * cell, at.y + (row + 4) * cell, cell, cell)
    sheet.doc.fillColor(colours.ink).fill()
  }
  sheet.tag('Figure', draw, { alt: sheet.visible(at.alt), bbox: [at.x, at.y, at.x + at.size, at.y + at.size] })
}
