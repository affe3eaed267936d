import type { CodeSquare } from '@curebook/contract/session'
import { create } from 'qrcode'

/** An address as a square for a camera: one path of dark cells, each one unit wide, and how many cells a side has. */
export function codeSquare(address: string): CodeSquare {
  const { modules } = create(address, { errorCorrectionLevel: 'M' })
  const cells: string[] = []
  for (let row = 0; row < modules.size; row += 1)
    for (let column = 0; column < modules.size; column += 1)
      if (modules.get(row, column)) cells.push(`M${column} ${row}h1v1h-1z`)
  return { size: modules.size, path: cells.join('') }
}
