import { colours, styles, type TextStyle } from './paper.ts'
import type { Align, Sheet } from './sheet.ts'

export type Column = {
  readonly head: string
  readonly align?: Align
  /** As wide as its widest cell; other columns part what is left by their `share`. */
  readonly fit?: true
  readonly share?: number
}
export type Cell = string | { readonly text: string; readonly style: TextStyle }
export type Table = {
  readonly columns: readonly Column[]
  readonly rows: readonly (readonly Cell[])[]
  /** Name of the table, printed above it and again, with "continued", on each further page. */
  readonly caption?: string
}

const pad = { x: 3.2, y: 2.3 }
const textOf = (cell: Cell | undefined) => (cell === undefined ? '' : typeof cell === 'string' ? cell : cell.text)
const styleOf = (cell: Cell | undefined) => (cell === undefined || typeof cell === 'string' ? styles.cell : cell.style)

/** Width that a column wants so that no cell of it breaks; the head may break between words. */
export function naturalWidth(sheet: Sheet, column: Column, cells: readonly (Cell | undefined)[]): number {
  const head = sheet
    .visible(column.head)
    .split(/[ \n]/)
    .map((word) => sheet.measure(word, styles.head))
  const body = cells.flatMap((cell) =>
    sheet
      .visible(textOf(cell))
      .split('\n')
      .map((line) => sheet.measure(line, styleOf(cell))),
  )
  return Math.max(...head, ...body, 6) + 2 * pad.x + 0.5
}

function columnWidths(sheet: Sheet, { columns, rows }: Table): number[] {
  const wanted = columns.map((column, index) =>
    column.fit
      ? Math.min(
          naturalWidth(
            sheet,
            column,
            rows.map((row) => row[index]),
          ),
          sheet.width * 0.4,
        )
      : 0,
  )
  const shares = columns.map(({ fit, share = 1 }) => (fit ? 0 : share))
  const shareSum = shares.reduce((sum, share) => sum + share, 0)
  const fitSum = wanted.reduce((sum, each) => sum + each, 0)
  const leastShare = Math.min(sheet.width * 0.5, shareSum * 55)
  const fitRoom = sheet.width - leastShare
  const squeeze = fitSum > fitRoom ? fitRoom / fitSum : 1
  const rest = sheet.width - fitSum * squeeze
  return wanted.map((each, index) =>
    shareSum === 0 ? each * squeeze : each * squeeze + (rest * (shares[index] ?? 0)) / shareSum,
  )
}

type LaidCell = { readonly lines: readonly string[]; readonly style: TextStyle }
type LaidRow = { readonly cells: readonly LaidCell[]; readonly height: number }

/**
 * A table whose head stands again on every page that it reaches. No row is parted between pages; only a row taller than a
 * whole page goes on, under the repeated head.
 */
export function drawTable(sheet: Sheet, table: Table): void {
  const widths = columnWidths(sheet, table)
  const lay = (cells: readonly Cell[], fixed?: TextStyle): LaidRow => {
    const laid = table.columns.map((_, index) => {
      const style = fixed ?? styleOf(cells[index])
      return { lines: sheet.linesOf(textOf(cells[index]), style, widths[index]! - 2 * pad.x), style }
    })
    return { cells: laid, height: heightOf(laid) }
  }
  const head = lay(
    table.columns.map(({ head: text }) => text),
    styles.head,
  )
  const captionHeight = table.caption === undefined ? 0 : styles.part.leading + 3
  const most = sheet.full - head.height - captionHeight - 2
  const rows = table.rows.map((row) => lay(row)).flatMap((row) => cutTall(row, most))

  const frame = sheet.doc.struct('Table')
  const begin = (again: boolean) => {
    if (table.caption !== undefined) {
      const text = again ? `${table.caption} (${sheet.words.continued})` : table.caption
      const draw = () =>
        sheet.drawLines(sheet.linesOf(text, styles.part, sheet.width).slice(0, 1), styles.part, {
          x: sheet.left,
          y: sheet.y,
          width: sheet.width,
        })
      if (again) sheet.artifact(draw, 'Pagination')
      else sheet.tag('P', draw)
      sheet.y += captionHeight
    }
    sheet.artifact(() => {
      const used = widths.reduce((sum, each) => sum + each, 0)
      sheet.doc.rect(sheet.left, sheet.y, used, head.height).fillColor(colours.wash).fill()
      lineUnder(sheet, sheet.y + head.height, used, colours.head, 0.8)
    })
    if (again) sheet.artifact(() => drawCells(sheet, table, widths, head), 'Pagination')
    else drawRow(sheet, frame, table, widths, head, 'TH')
    sheet.y += head.height
  }

  const firstRows = rows.slice(0, 2).reduce((sum, row) => sum + row.height, 0)
  sheet.need(Math.min(sheet.full, captionHeight + head.height + firstRows + 1))
  sheet.root.add(frame)
  begin(false)
  rows.forEach((row, index) => {
    // The last two rows stay together, so that no page begins with a single row.
    const last = index === rows.length - 2 ? rows[index + 1]!.height : 0
    const together = row.height + (last < sheet.full / 6 ? last : 0)
    if (sheet.room() < (index > 0 ? together : row.height)) {
      sheet.newPage()
      begin(true)
    }
    drawRow(sheet, frame, table, widths, row, 'TD')
    sheet.y += row.height
    sheet.artifact(() => lineUnder(sheet, sheet.y, widths.reduce((sum, each) => sum + each, 0), colours.rule, 0.4))
  })
  sheet.gap(6)
}

function heightOf(cells: readonly LaidCell[]): number {
  return Math.max(...cells.map(({ lines, style }) => lines.length * style.leading)) + 2 * pad.y
}

function cutTall(row: LaidRow, most: number): LaidRow[] {
  if (row.height <= most) return [row]
  const linesThatFit = ({ style }: LaidCell) => Math.max(1, Math.floor((most - 2 * pad.y) / style.leading))
  const part = (pick: (cell: LaidCell) => readonly string[]) => {
    const cells = row.cells.map((cell) => ({ ...cell, lines: pick(cell) }))
    return { cells, height: heightOf(cells) }
  }
  const first = part((cell) => cell.lines.slice(0, linesThatFit(cell)))
  return [first, ...cutTall(part((cell) => cell.lines.slice(linesThatFit(cell))), most)]
}

function drawRow(
  sheet: Sheet,
  element: PDFKit.PDFStructureElement,
  table: Table,
  widths: readonly number[],
  row: LaidRow,
  kind: 'TH' | 'TD',
): void {
  const line = sheet.doc.struct('TR')
  element.add(line)
  drawCells(sheet, table, widths, row, (draw) => {
    line.add(sheet.doc.struct(kind, kind === 'TH' ? { scope: 'Column' } : {}, [draw]))
  })
}

function drawCells(
  sheet: Sheet,
  { columns }: Table,
  widths: readonly number[],
  row: LaidRow,
  put: (draw: () => void) => void = (draw) => draw(),
): void {
  let x = sheet.left
  row.cells.forEach(({ lines, style }, index) => {
    const at = { x: x + pad.x, y: sheet.y + pad.y, width: widths[index]! - 2 * pad.x, align: columns[index]?.align }
    put(() => sheet.drawLines(lines, style, at))
    x += widths[index]!
  })
}

function lineUnder(sheet: Sheet, y: number, length: number, colour: string, thickness: number): void {
  sheet.doc
    .moveTo(sheet.left, y)
    .lineTo(sheet.left + length, y)
    .lineWidth(thickness)
    .strokeColor(colour)
    .stroke()
}
