import { colours, styles, type TextStyle } from './paper.ts'
import type { Sheet, TagOptions } from './sheet.ts'
import { columnWidths, lookOf, styleOf, textOf, type Cell, type Look, type Table } from './table-columns.ts'

type LaidCell = { readonly lines: readonly string[]; readonly style: TextStyle }
type LaidRow = { readonly cells: readonly LaidCell[]; readonly height: number }
type LaidTable = { readonly table: Table; readonly look: Look; readonly widths: readonly number[] }

/**
 * A table whose head stands again on every page that it reaches. No row is parted between pages; only a row taller than a
 * whole page goes on, under the repeated head.
 */
export function drawTable(sheet: Sheet, table: Table): void {
  if (table.title !== undefined)
    sheet.heading(table.title, { keep: Math.min(leadHeight(sheet, table), sheet.full * 0.8) })
  const look = lookOf(table)
  const laid: LaidTable = { table, look, widths: columnWidths(sheet, table) }
  const heads = table.columns.map(({ head }) => head)
  const head = layRow(sheet, laid, heads, look.head)
  const captionHeight = table.caption === undefined ? 0 : styles.part.leading + 2
  const most = sheet.full - head.height - captionHeight - 2
  const rows = table.rows.flatMap((row) => cutTall(layRow(sheet, laid, row), most, look))
  const element = sheet.doc.struct('Table')

  const begin = (again: boolean) => {
    if (table.caption !== undefined) {
      drawCaption(sheet, table.caption, again)
      sheet.y += captionHeight
    }
    drawHeadGround(sheet, laid, head.height)
    if (again) sheet.artifact(() => drawCells(sheet, laid, head), 'Pagination')
    else drawRow(sheet, element, laid, head, 'TH')
    sheet.y += head.height
  }

  sheet.need(Math.min(sheet.full, captionHeight + head.height + leadOf(rows) + 1))
  sheet.root.add(element)
  begin(false)
  rows.forEach((row, index) => {
    // The last two rows stay together, so that no page begins with a single row.
    const next = index === rows.length - 2 ? rows[index + 1]!.height : 0
    const together = index > 0 && next < sheet.full / 6 ? row.height + next : row.height
    if (sheet.room() < together) {
      sheet.newPage()
      begin(true)
    }
    drawRow(sheet, element, laid, row, 'TD')
    sheet.y += row.height
    sheet.artifact(() => drawRule(sheet, laid, colours.rule, 0.4))
  })
  sheet.gap(7)
}

/** Height that the beginning of a table takes: what a heading above it must leave room for. */
function leadHeight(sheet: Sheet, table: Table): number {
  const look = lookOf(table)
  const laid: LaidTable = { table, look, widths: columnWidths(sheet, table) }
  const heads = table.columns.map(({ head }) => head)
  const caption = table.caption === undefined ? 0 : styles.part.leading + 2
  const rows = table.rows.slice(0, 3).map((row) => layRow(sheet, laid, row))
  return caption + layRow(sheet, laid, heads, look.head).height + leadOf(rows)
}

/** The first row, and two more where they are low. */
function leadOf(rows: readonly LaidRow[]): number {
  const [first = 0, ...others] = rows.slice(0, 3).map(({ height }) => height)
  const rest = others.reduce((sum, height) => sum + height, 0)
  return first + (rest < 60 ? rest : 0)
}

function layRow(sheet: Sheet, { table, look, widths }: LaidTable, cells: readonly Cell[], fixed?: TextStyle): LaidRow {
  const laid = table.columns.map((_, index) => {
    const style = fixed ?? styleOf(cells[index], look)
    return { lines: sheet.linesOf(textOf(cells[index]), style, widths[index]! - 2 * look.x), style }
  })
  return { cells: laid, height: heightOf(laid, look) }
}

function heightOf(cells: readonly LaidCell[], look: Look): number {
  return Math.max(...cells.map(({ lines, style }) => lines.length * style.leading)) + 2 * look.y
}

function cutTall(row: LaidRow, most: number, look: Look): LaidRow[] {
  if (row.height <= most) return [row]
  const fits = ({ style }: LaidCell) => Math.max(1, Math.floor((most - 2 * look.y) / style.leading))
  const part = (pick: (cell: LaidCell) => readonly string[]) => {
    const cells = row.cells.map((cell) => ({ ...cell, lines: pick(cell) }))
    return { cells, height: heightOf(cells, look) }
  }
  const first = part((cell) => cell.lines.slice(0, fits(cell)))
  return [
    first,
    ...cutTall(
      part((cell) => cell.lines.slice(fits(cell))),
      most,
      look,
    ),
  ]
}

const columnHead: TagOptions = { scope: 'Column' }

function drawRow(sheet: Sheet, element: PDFKit.PDFStructureElement, laid: LaidTable, row: LaidRow, kind: 'TH' | 'TD') {
  const line = sheet.doc.struct('TR')
  element.add(line)
  drawCells(sheet, laid, row, (draw) => {
    line.add(sheet.doc.struct(kind, kind === 'TH' ? columnHead : {}, [draw]))
  })
}

function drawCells(
  sheet: Sheet,
  { table, look, widths }: LaidTable,
  row: LaidRow,
  put: (draw: () => void) => void = (draw) => draw(),
): void {
  let x = sheet.left
  row.cells.forEach(({ lines, style }, index) => {
    const width = widths[index]! - 2 * look.x
    const at = { x: x + look.x, y: sheet.y + look.y, width, align: table.columns[index]?.align }
    put(() => sheet.drawLines(lines, style, at))
    x += widths[index]!
  })
}

function drawCaption(sheet: Sheet, caption: string, again: boolean): void {
  const text = again ? `${caption} (${sheet.words.continued})` : caption
  const lines = sheet.linesOf(text, styles.part, sheet.width).slice(0, 1)
  const draw = () => sheet.drawLines(lines, styles.part, { x: sheet.left, y: sheet.y, width: sheet.width })
  if (again) sheet.artifact(draw, 'Pagination')
  else sheet.tag('P', draw)
}

function drawHeadGround(sheet: Sheet, laid: LaidTable, height: number): void {
  sheet.artifact(() => {
    sheet.doc.rect(sheet.left, sheet.y, usedWidth(laid), height).fillColor(colours.wash).fill()
    drawRule(sheet, laid, colours.head, 0.8, height)
  })
}

function drawRule(sheet: Sheet, laid: LaidTable, colour: string, thickness: number, below = 0): void {
  sheet.doc
    .moveTo(sheet.left, sheet.y + below)
    .lineTo(sheet.left + usedWidth(laid), sheet.y + below)
    .lineWidth(thickness)
    .strokeColor(colour)
    .stroke()
}

const usedWidth = ({ widths }: LaidTable) => widths.reduce((sum, each) => sum + each, 0)
