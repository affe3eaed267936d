import { styles, type TextStyle } from './paper.ts'
import type { Align, Sheet } from './sheet.ts'

export type Column = {
  readonly head: string
  readonly align?: Align
  /** As wide as its widest cell; other columns part what is left by their `share`. */
  readonly fit?: true
  /** The narrowest that a fitting column becomes, in points, so that its head need not stand word under word. */
  readonly least?: number
  /** The widest that a fitting column becomes, in points; its cells break beyond. */
  readonly most?: number
  readonly share?: number
}
export type Cell = string | { readonly text: string; readonly strong?: boolean; readonly colour?: string }
export type Table = {
  readonly columns: readonly Column[]
  readonly rows: readonly (readonly Cell[])[]
  /** Heading of the section that the table opens; it never stands at the foot of a page without it. */
  readonly title?: string
  /** Name of the table, printed above it and again, with "continued", on each further page. */
  readonly caption?: string
  /** Smaller type and closer rows, for long lists of numbers. */
  readonly dense?: boolean
}

/** Type and white space of a table. */
export type Look = {
  readonly x: number
  readonly y: number
  readonly head: TextStyle
  readonly cell: TextStyle
  readonly strong: TextStyle
}
const open: Look = { x: 3.2, y: 2.3, head: styles.head, cell: styles.cell, strong: styles.cellStrong }
const dense: Look = { x: 2.3, y: 1.5, head: styles.denseHead, cell: styles.denseCell, strong: styles.denseStrong }
export const lookOf = (table: Pick<Table, 'dense'>): Look => (table.dense ? dense : open)

export const textOf = (cell: Cell | undefined) =>
  cell === undefined ? '' : typeof cell === 'string' ? cell : cell.text

export function styleOf(cell: Cell | undefined, look: Look): TextStyle {
  if (cell === undefined || typeof cell === 'string') return look.cell
  const style = cell.strong ? look.strong : look.cell
  return cell.colour === undefined ? style : { ...style, colour: cell.colour }
}

/** Width that a column wants so that no cell of it breaks; the head may break between words. */
export function naturalWidth(sheet: Sheet, look: Look, column: Column, cells: readonly (Cell | undefined)[]): number {
  const head = sheet
    .visible(column.head)
    .split(/[ \n]/)
    .map((word) => sheet.measure(word, look.head))
  const body = cells.flatMap((cell) =>
    sheet
      .visible(textOf(cell))
      .split('\n')
      .map((line) => sheet.measure(line, styleOf(cell, look))),
  )
  return Math.min(
    Math.max(...head, ...body, column.least ?? 6) + 2 * look.x + 0.5,
    Math.max(column.most ?? Infinity, ...head),
  )
}

/** Widths of all columns: never more than the paper together, and room left for those that share it. */
export function columnWidths(sheet: Sheet, table: Table): number[] {
  const look = lookOf(table)
  const shares = table.columns.map(({ fit, share = 1 }) => (fit ? 0 : share))
  const shareSum = shares.reduce((sum, share) => sum + share, 0)
  const wanted = table.columns.map((column, index) => {
    if (!column.fit) return 0
    const cells = table.rows.map((row) => row[index])
    return Math.min(naturalWidth(sheet, look, column, cells), sheet.width * 0.4)
  })
  const fitSum = wanted.reduce((sum, each) => sum + each, 0)
  const fitRoom = sheet.width - Math.min(sheet.width * 0.5, shareSum * 50)
  const squeeze = fitSum > fitRoom ? fitRoom / fitSum : 1
  const rest = shareSum === 0 ? 0 : (sheet.width - fitSum * squeeze) / shareSum
  // Where every column fits itself, what is left of the paper is parted alike.
  const spare = shareSum === 0 ? Math.max(0, sheet.width - fitSum * squeeze) / wanted.length : 0
  return wanted.map((each, index) => each * squeeze + rest * shares[index]! + spare)
}
