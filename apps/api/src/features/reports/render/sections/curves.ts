import { chartOfCurves, type ChartBand } from '@curebook/contract/chart-model'
import type { Curve, ExcludedPoint } from '@curebook/contract/range'
import type { SignedContent } from '@curebook/contract/signed-content'
import { limitWords } from '@curebook/trade/specification/judge'
import { chartHeight, drawCurveChart } from '../curve-chart.ts'
import { groupedBy } from '../grouped-by.ts'
import { styles } from '../paper.ts'
import type { Sheet } from '../sheet.ts'
import { drawTable } from '../table.ts'

/** One chart for the curves of each property and unit, its sentence under it, and the statistics behind it. */
export function drawCurves(sheet: Sheet, content: SignedContent): void {
  if (content.curves.length === 0) return
  const { words } = sheet
  sheet.heading(words.curves, { keep: chartHeight + 60 })
  for (const curves of charts(content.curves)) {
    const model = chartOfCurves(withLimitLines(sheet, curves), bandsOf(sheet, content), {
      title: titleOf(curves),
      sentence: sentenceOf(sheet, curves),
      xLabel: words.xLabel,
      xUnit: words.xUnit,
      yLabel: curves.length === 1 ? titleOf(curves) : propertyOf(curves),
      decimalSign: sheet.format.sign,
      excluded: (point) => excludedAs(sheet, point),
      held: (curve) => heldLineOf(sheet, curve),
    })
    sheet.need(chartHeight + styles.part.leading + 44)
    sheet.heading(model.title, { level: 2, keep: chartHeight + 30 })
    drawCurveChart(
      sheet,
      model,
      curves.flatMap((curve) => crossingOf(sheet, curve)),
    )
    sheet.paragraph(model.sentence, styles.body, { after: 3 })
    const flags = curves.flatMap((curve) =>
      curve.flags.map(({ sentence }) =>
        sentence.includes(curve.label) ? `• ${sentence}` : `• ${curve.label}: ${sentence}`,
      ),
    )
    const excluded = curves.flatMap((curve) => excludedLines(sheet, curve))
    for (const flag of [...flags, ...excluded]) sheet.paragraph(flag, styles.body, { after: 2 })
    sheet.gap(6)
  }
  sheet.paragraph(words.straight, styles.quiet)
  drawStatistics(sheet, content.curves)
}

function charts(curves: readonly Curve[]): Curve[][] {
  return [...groupedBy(curves, ({ property, unit }) => `${property} ${unit}`).values()]
}

const titleOf = (curves: readonly Curve[]) => curves.map(({ label }) => label).join(' · ')

/** What the labels of several curves begin with alike: "Abrasion loss, 1-hour soak" and "…, 6-day soak" → "Abrasion loss". */
function propertyOf(curves: readonly Curve[]): string {
  const [first = '', ...others] = curves.map(({ label }) => label)
  const words = first.split(' ')
  const shared = words.filter((_, index) =>
    others.every((label) => label.startsWith(words.slice(0, index + 1).join(' '))),
  )
  return shared.join(' ').replace(/[,:;·–-]+$/, '') || titleOf(curves)
}

function bandsOf({ words, format }: Sheet, { range }: SignedContent): ChartBand[] {
  const [from, to] = [range.minimum.residualPercent, range.maximum.residualPercent]
  if (from === null || to === null || Number(from) >= Number(to)) return []
  const label = words.rangeBand(format.fixed(from, 3), format.fixed(to, 3))
  return [{ key: 'range', from: Number(from), to: Number(to), label }]
}

/** On its line a limit says what it is; with several curves on a chart also whose. */
function withLimitLines(sheet: Sheet, curves: readonly Curve[]): Curve[] {
  const shared = propertyOf(curves)
  return curves.map((curve) => {
    if (curve.limit === null) return curve
    const own = curve.label.replace(shared, '').replace(/^[,:;·\s]+/, '')
    const line = limitLineOf(sheet, curve)
    const label = curves.length === 1 || own === '' ? line : sheet.words.limitLineOf(line, own)
    return { ...curve, limit: { ...curve.limit, label } }
  })
}

function limitLineOf(sheet: Sheet, curve: Curve): string {
  const { sense, limit } = curve
  if (limit === null) return ''
  const line = sheet.format.numbersIn(limitWords({ ...limit, sense }))
  return limit.guarded === null ? line : sheet.words.acceptanceLine(line, heldOf(sheet, curve))
}

const heldLineOf = (sheet: Sheet, curve: Curve) => sheet.words.heldLine(heldOf(sheet, curve))

/** The limit itself, under a guard band. */
function heldOf({ format }: Sheet, { sense, limit }: Curve): string {
  if (!limit?.guarded) return ''
  return format.numbersIn(limitWords({ value: limit.guarded.held, unit: limit.unit, sense }))
}

function crossingOf({ words, format }: Sheet, { crossing, limit }: Curve) {
  if (crossing === null || limit === null) return []
  return [{ x: Number(crossing), y: Number(limit.value), label: words.crossing(format.fixed(crossing, 3)) }]
}

function sentenceOf(sheet: Sheet, curves: readonly Curve[]): string {
  const { words, format } = sheet
  const count = curves.reduce((sum, { points }) => sum + points.length, 0)
  const limits = curves.flatMap((curve) =>
    curve.limit === null ? [] : [words.curveLimit(curve.label, limitLineOf(sheet, curve))],
  )
  const crossings = curves.map(({ label, limit, crossing }) => {
    if (limit === null) return words.curveNoLimit(label)
    return crossing === null ? words.curveNoCrossing(label) : words.curveCrossing(label, format.fixed(crossing, 3))
  })
  return words.curveSentence(count, limits.join(''), crossings.join('')).trim()
}

function excludedAs({ words }: Sheet, { kind, reason, by }: ExcludedPoint): string {
  return words.excludedAs[kind](reason, by)
}

/** What does not count, with reason and person, and both means of its content. */
function excludedLines(sheet: Sheet, { label: of, unit, excluded, meansWithExcluded }: Curve): string[] {
  const { words, format } = sheet
  const shown = ({ y, n }: { y: string; n: number }) =>
    words.meanOfN(`${format.fixed(y, format.decimalsOf(unit))}\u00a0${unit}`, n)
  return [
    ...excluded.map((point) => `• ${of}: ${point.code}\u00a0(${point.label}) ${excludedAs(sheet, point)}.`),
    ...meansWithExcluded.map(({ emulsionPercent, counting, withExcluded }) => {
      const without = counting === null ? words.notFound : shown(counting)
      return `• ${of}: ${words.meanWithExcluded(format.digits(emulsionPercent), without, shown(withExcluded))}`
    }),
  ]
}

function drawStatistics(sheet: Sheet, curves: readonly Curve[]): void {
  const { words, format } = sheet
  curves.forEach((curve, index) => {
    const decimals = format.decimalsOf(curve.unit)
    const spread = (digits: string | null) => (digits === null ? words.dash : format.fixed(digits, decimals))
    const withUnit = (name: string) => `${name}, ${curve.unit}`
    drawTable(sheet, {
      ...(index === 0 ? { title: words.statistics } : {}),
      dense: true,
      caption: curve.label,
      columns: [
        { head: words.target, align: 'right', share: 0.7 },
        { head: words.meanX, align: 'right', share: 0.8 },
        { head: words.n, align: 'right', fit: true },
        { head: withUnit(words.mean), align: 'right', share: 0.7 },
        { head: withUnit(words.standardDeviation), align: 'right', share: 0.8 },
        { head: withUnit(words.spread), align: 'right', share: 0.7 },
        { head: words.specimensHead, share: 2 },
      ],
      rows: curve.means.map((mean) => [
        format.digits(mean.emulsionPercent),
        format.fixed(mean.x, 3),
        String(mean.n),
        format.fixed(mean.y, decimals),
        spread(mean.standardDeviation),
        spread(mean.range),
        curve.points
          .filter(({ mixId }) => mixId === mean.mixId)
          .map(({ code, label, flags }) => [`${code}\u00a0(${label})`, ...flags].join(', '))
          .join('; '),
      ]),
    })
  })
  sheet.paragraph(words.statisticsNote, styles.quiet)
}
