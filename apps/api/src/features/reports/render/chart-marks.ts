import { type ChartDash, type ChartMark, markCorners } from '@curebook/contract/chart-looks'
import { colours } from './paper.ts'

/** Lengths of strokes and gaps, in points. */
export const dashes: Record<ChartDash, readonly number[] | null> = {
  solid: null,
  dashed: [5, 2.6],
  dotted: [1.4, 2],
  'dash-dot': [7, 3, 1.4, 3],
  'long-dashed': [10, 3],
  'dash-dot-dot': [6, 2, 1.2, 2, 1.2, 2],
  'short-dashed': [2.8, 2],
}

export function stroke(
  doc: PDFKit.PDFDocument,
  colour: string,
  thickness: number,
  dash: readonly number[] | null,
): void {
  doc.lineWidth(thickness).strokeColor(colour)
  // It takes a list of lengths too; its types know of one length only.
  if (dash) doc.dash([...dash] as unknown as number, {})
  else doc.undash()
}

/** Two strokes across the axis near its beginning: it does not begin at zero. */
export function drawBreak(doc: PDFKit.PDFDocument, x: number, y: number): void {
  stroke(doc, colours.ground, 2.4, null)
  doc
    .moveTo(x + 6, y)
    .lineTo(x + 10, y)
    .stroke()
  stroke(doc, colours.ink, 0.9, null)
  for (const from of [x + 4.5, x + 8.5]) doc.moveTo(from, y + 3.5).lineTo(from + 2.6, y - 3.5)
  doc.stroke()
}

/** A result that does not count: its curve's mark, hollow and crossed out. */
export function drawExcluded(doc: PDFKit.PDFDocument, mark: ChartMark, x: number, y: number, colour: string): void {
  drawMark(doc, mark, x, y, colour, true)
  stroke(doc, colour, 0.9, null)
  doc
    .moveTo(x - 4, y - 4)
    .lineTo(x + 4, y + 4)
    .moveTo(x - 4, y + 4)
    .lineTo(x + 4, y - 4)
    .stroke()
}

export function drawMark(
  doc: PDFKit.PDFDocument,
  mark: ChartMark,
  x: number,
  y: number,
  colour: string,
  hollow: boolean,
): void {
  const size = 2.5
  doc
    .lineWidth(0.9)
    .strokeColor(colour)
    .fillColor(hollow ? colours.ground : colour)
  const corners = markCorners(mark)
  if (corners === null) doc.circle(x, y, size)
  else doc.polygon(...corners.map(([across, down]) => [x + across * size, y + down * size]))
  doc.fillAndStroke()
}

/** A mean with its bar of one standard deviation to either side. */
export function drawBar(
  doc: PDFKit.PDFDocument,
  x: number,
  high: number,
  mean: number,
  low: number,
  colour: string,
): void {
  stroke(doc, colour, 0.8, null)
  doc.moveTo(x - 5, mean).lineTo(x + 5, mean)
  doc.moveTo(x, low).lineTo(x, high)
  doc.moveTo(x - 2.5, low).lineTo(x + 2.5, low)
  doc.moveTo(x - 2.5, high).lineTo(x + 2.5, high)
  doc.stroke()
}
