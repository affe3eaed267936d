import type { ChartBand, ChartLimit, ChartModel, ChartSeries } from '@curebook/contract/chart-model'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import { createChartLabels, type Box, type Spot } from './chart-labels.ts'
import { dashes, drawBar, drawBreak, drawExcluded, drawMark, stroke } from './chart-marks.ts'
import { colours, styles } from './paper.ts'
import type { Sheet } from './sheet.ts'

const inner = { left: 50, right: 14, top: 22, bottom: 34 }
const legendRow = 11

/** A place where a curve meets its limit. */
export type Crossing = { readonly x: number; readonly y: number; readonly label: string }

export const chartHeight = 258

/**
 * Draws the same model that the screen draws, as paths: every specimen, the means with their n and bars of one standard
 * deviation, limits named on their lines, the acceptable range as a band, crossings ringed. The reader who cannot see it
 * is given the model's sentence.
 */
export function drawCurveChart(sheet: Sheet, model: ChartModel, crossings: readonly Crossing[]): void {
  const box = { x: sheet.left, y: sheet.y, width: sheet.width, height: chartHeight }
  const drawing = () => {
    const legendRows = drawLegend(sheet, model, box)
    const plot: Plot = {
      left: box.x + inner.left,
      right: box.x + box.width - inner.right,
      top: box.y + inner.top + (legendRows - 1) * legendRow,
      bottom: box.y + box.height - inner.bottom,
    }
    drawPlot(sheet, model, crossings, plot)
  }
  sheet.tag('Figure', drawing, {
    alt: sheet.visible([`${model.title}. ${model.sentence}`, axisBegins(sheet, model.x)].join(' ').trim()),
    bbox: [box.x, box.y, box.x + box.width, box.y + box.height],
  })
  sheet.y += chartHeight
}

function drawPlot(sheet: Sheet, model: ChartModel, crossings: readonly Crossing[], plot: Plot): void {
  const { doc } = sheet
  const scale = (axis: ChartModel['x'], from: number, to: number) => (value: number) =>
    from + ((value - axis.domain[0]) / (axis.domain[1] - axis.domain[0])) * (to - from)
  const toX = scale(model.x, plot.left, plot.right)
  const toY = scale(model.y, plot.bottom, plot.top)
  const frame = { x: plot.left, y: plot.top, width: plot.right - plot.left, height: plot.bottom - plot.top }
  const labels = createChartLabels(sheet, frame)

  for (const band of model.bands) drawBand(sheet, band, toX, plot)
  drawAxes(sheet, model, toX, toY, plot)
  for (const limit of model.limits) {
    const [from, to] =
      limit.axis === 'y'
        ? [
            { x: plot.left, y: toY(limit.at) },
            { x: plot.right, y: toY(limit.at) },
          ]
        : [
            { x: toX(limit.at), y: plot.top },
            { x: toX(limit.at), y: plot.bottom },
          ]
    stroke(doc, colours.lost, 1, dashes[limit.dash])
    doc.moveTo(from.x, from.y).lineTo(to.x, to.y).stroke()
    doc.undash()
    labels.occupyLine(from, to)
  }
  for (const { from, to } of model.bands)
    for (const x of [toX(from), toX(to)]) labels.occupyLine({ x, y: plot.top }, { x, y: plot.bottom })
  for (const series of model.series) {
    drawSeries(sheet, series, toX, toY)
    occupySeries(labels, series, toX, toY)
  }
  for (const { x, y } of crossings) {
    stroke(doc, colours.ink, 1.1, null)
    doc.circle(toX(x), toY(y), 4.6).stroke()
    labels.occupy({ x: toX(x) - 5, y: toY(y) - 5, width: 10, height: 10 })
  }
  for (const band of model.bands)
    labels.write(band.label, [{ x: (toX(band.from) + toX(band.to)) / 2, y: plot.top + 2, align: 'centre' }], {
      colour: colours.head,
      strong: true,
    })
  for (const limit of model.limits) labels.write(limit.label, limitSpots(limit, toX, toY, plot), limitLook)
  for (const { x, y, label } of crossings) labels.write(label, spotsAround(toX(x), toY(y), 7), { strong: true })
  for (const { means } of model.series)
    for (const { x, y, n } of means) labels.write(`n\u00a0=\u00a0${n}`, spotsAround(toX(x), toY(y), 8), { quiet: true })
}

const limitLook = { colour: colours.lost, strong: true }

function limitSpots(limit: ChartLimit, toX: Scale, toY: Scale, plot: Plot): Spot[] {
  if (limit.axis === 'x') return [16, 30, 44].map((down) => ({ x: toX(limit.at) + 3, y: plot.top + down }))
  const [above, below] = [toY(limit.at) - 10.5, toY(limit.at) + 2]
  const right = (y: number): Spot => ({ x: plot.right - 3, y, align: 'right' })
  const left = (y: number): Spot => ({ x: plot.left + 4, y })
  return [right(above), left(above), right(below), left(below)]
}

/** Places round a mark, those at its upper right first. */
function spotsAround(x: number, y: number, away: number): Spot[] {
  return [1, 1.6].flatMap((times): Spot[] => {
    const off = away * times
    return [
      { x: x + off, y: y - off - 5 },
      { x: x - off, y: y - off - 5, align: 'right' },
      { x: x + off, y: y + off - 4 },
      { x: x - off, y: y + off - 4, align: 'right' },
      { x: x + off + 3, y: y - 4.5 },
      { x: x - off - 3, y: y - 4.5, align: 'right' },
    ]
  })
}

function occupySeries(labels: ChartLabels, { means, points, excluded }: ChartSeries, toX: Scale, toY: Scale): void {
  means.forEach(({ x, y, spread }, index) => {
    const at = { x: toX(x), y: toY(y) }
    const before = means[index - 1]
    if (before) labels.occupyLine({ x: toX(before.x), y: toY(before.y) }, at)
    if (spread !== null)
      labels.occupyLine({ x: at.x, y: toY(y - Number(spread)) }, { x: at.x, y: toY(y + Number(spread)) })
  })
  for (const { x, y } of [...points, ...excluded])
    labels.occupy({ x: toX(x) - 3.5, y: toY(y) - 3.5, width: 7, height: 7 })
}

type Plot = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number }
type Scale = (value: number) => number
type ChartLabels = ReturnType<typeof createChartLabels>

function drawBand({ doc }: Sheet, band: ChartBand, toX: Scale, plot: Plot): void {
  const [from, to] = [toX(band.from), toX(band.to)]
  doc
    .rect(from, plot.top, to - from, plot.bottom - plot.top)
    .fillColor(colours.band)
    .fill()
  stroke(doc, colours.head, 0.7, [2, 2])
  doc.moveTo(from, plot.top).lineTo(from, plot.bottom).moveTo(to, plot.top).lineTo(to, plot.bottom).stroke()
  doc.undash()
}

function drawAxes(sheet: Sheet, { x, y }: ChartModel, toX: Scale, toY: Scale, plot: Plot): void {
  const { doc } = sheet
  stroke(doc, colours.rule, 0.4, null)
  for (const { at } of y.ticks) doc.moveTo(plot.left, toY(at)).lineTo(plot.right, toY(at))
  for (const { at } of x.ticks) doc.moveTo(toX(at), plot.bottom).lineTo(toX(at), plot.bottom + 3)
  doc.stroke()
  stroke(doc, colours.quiet, 0.8, null)
  doc.moveTo(plot.left, plot.top).lineTo(plot.left, plot.bottom).lineTo(plot.right, plot.bottom).stroke()
  for (const { at, label } of y.ticks)
    sheet.drawLines([label], styles.chart, { x: plot.left - 34, y: toY(at) - 4.4, width: 30, align: 'right' })
  for (const { at, label } of x.ticks)
    sheet.drawLines([label], styles.chart, { x: toX(at) - 20, y: plot.bottom + 4.5, width: 40, align: 'centre' })
  if (x.begins !== null) drawBreak(doc, plot.left, plot.bottom)
  const title = (axis: ChartModel['x']) =>
    sheet.visible(
      [writtenUnit(axis.unit) === '' ? axis.label : `${axis.label}, ${axis.unit}`, axisBegins(sheet, axis)]
        .join(' ')
        .trim(),
    )
  sheet.drawLines([title(x)], styles.chart, {
    x: plot.left,
    y: plot.bottom + 16,
    width: plot.right - plot.left,
    align: 'centre',
  })
  doc.save()
  const middle = (plot.top + plot.bottom) / 2
  doc.rotate(-90, { origin: [plot.left - 46, middle] })
  sheet.drawLines([title(y)], styles.chart, { x: plot.left - 46 - 100, y: middle, width: 200, align: 'centre' })
  doc.restore()
}

function axisBegins({ words }: Sheet, { begins }: ChartModel['x']): string {
  return begins === null ? '' : words.axisBegins(begins)
}

function drawSeries({ doc }: Sheet, series: ChartSeries, toX: Scale, toY: Scale): void {
  const colour = colours.series[series.tone - 1]!
  stroke(doc, colour, 1.2, dashes[series.dash])
  series.means.forEach((mean, index) => {
    if (index === 0) doc.moveTo(toX(mean.x), toY(mean.y))
    else doc.lineTo(toX(mean.x), toY(mean.y))
  })
  if (series.means.length > 1) doc.stroke()
  for (const { x, y, spread } of series.means) {
    const half = Number(spread ?? 0)
    drawBar(doc, toX(x), toY(y + half), toY(y), toY(y - half), colour)
  }
  for (const point of series.points)
    drawMark(doc, series.mark, toX(point.x), toY(point.y), colour, point.flags.length > 0)
  for (const { x, y } of series.excluded) drawExcluded(doc, series.mark, toX(x), toY(y), colour)
}

/** What the marks, strokes and bars mean, in as many rows as the width asks for; says how many. */
function drawLegend(sheet: Sheet, model: ChartModel, box: Box): number {
  const first = box.x + inner.left
  const at = { x: first, y: box.y + 5, rows: 1 }
  const entry = (text: string, draw: (x: number, y: number) => void, symbol: number) => {
    const shown = sheet.visible(text)
    const width = symbol + 4 + sheet.measure(shown, styles.chart)
    if (at.x > first && at.x + width > box.x + box.width) {
      at.x = first
      at.y += legendRow
      at.rows += 1
    }
    draw(at.x, at.y + 4.6)
    sheet.drawLines([shown], styles.chart, { x: at.x + symbol + 4, y: at.y, width })
    at.x += width + 14
  }
  for (const series of model.series) {
    const colour = colours.series[series.tone - 1]!
    const draw = (x: number, y: number) => {
      stroke(sheet.doc, colour, 1.2, dashes[series.dash])
      sheet.doc
        .moveTo(x, y)
        .lineTo(x + 24, y)
        .stroke()
      sheet.doc.undash()
      drawMark(sheet.doc, series.mark, x + 12, y, colour, false)
    }
    entry(series.label, draw, 24)
  }
  entry(sheet.words.chartMean, (x, y) => drawBar(sheet.doc, x + 5, y - 4.5, y, y + 4.5, colours.ink), 10)
  if (model.series.some(({ points }) => points.some(({ flags }) => flags.length > 0)))
    entry(sheet.words.chartHollow, (x, y) => drawMark(sheet.doc, 'circle', x + 3, y, colours.ink, true), 6)
  if (model.series.some(({ excluded }) => excluded.length > 0))
    entry(sheet.words.chartExcluded, (x, y) => drawExcluded(sheet.doc, 'circle', x + 4, y, colours.ink), 8)
  return at.rows
}
