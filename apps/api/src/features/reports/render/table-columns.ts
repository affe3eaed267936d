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

/** The most that a fitting column is widened where none shares the rest, in points. */
const mostSpare = 40

/** Lines that the head of a fitting column takes where there is room: more stand word under word. */
const headLines = 2

/** Widens fitting columns whose heads would stand word under word, as far as the columns that share the rest can spare it. */
function comfort(sheet: Sheet, look: Look, table: Table, wanted: number[]): void {
  const shared = table.columns.flatMap(({ fit, head }, index) =>
    fit ? [] : [Math.max(50, ...[head, ...table.rows.map((row) => textOf(row[index]))].map(lineWidth))],
  )
  function lineWidth(text: string) {
    return Math.min(sheet.width * 0.3, sheet.measure(sheet.visible(text), look.cell) + 2 * look.x + 1)
  }
  const lacking = table.columns.map(({ fit, head }, index) => {
    if (!fit) return 0
    const width = headWidth(sheet, look, head) + 2 * look.x + 0.5
    return Math.max(0, width - wanted[index]!)
  })
  const sum = (all: readonly number[]) => all.reduce((total, each) => total + each, 0)
  const spare = sheet.width - sum(wanted) - sum(shared)
  const part = sum(lacking) === 0 ? 0 : Math.min(1, Math.max(0, spare / sum(lacking)))
  lacking.forEach((width, index) => (wanted[index]! += width * part))
}

/** The narrowest width at which a head takes no more than its lines. */
function headWidth(sheet: Sheet, look: Look, head: string): number {
  const measured = sheet.visible(head)
  const words = measured.split(/[ \n]/)
  const widths = words.flatMap((_, from) =>
    words.slice(from).map((__, length) => sheet.measure(words.slice(from, from + length + 1).join(' '), look.head)),
  )
  const enough = (width: number) => sheet.linesOf(head, look.head, width).length <= headLines
  return widths.toSorted((a, b) => a - b).find((width) => enough(width + 0.01)) ?? 0
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
  comfort(sheet, look, table, wanted)
  const fitSum = wanted.reduce((sum, each) => sum + each, 0)
  const fitRoom = sheet.width - Math.min(sheet.width * 0.5, shareSum * 50)
  const squeeze = fitSum > fitRoom ? fitRoom / fitSum : 1
  const rest = shareSum === 0 ? 0 : (sheet.width - fitSum * squeeze) / shareSum
  // Where every column fits itself, what is left of the paper is parted alike, but never drives few columns far apart.
  const spare = shareSum === 0 ? Math.min(mostSpare, Math.max(0, sheet.width - fitSum * squeeze) / wanted.length) : 0
  return wanted.map((each, index) => each * squeeze + rest * shares[index]! + spare)
}
