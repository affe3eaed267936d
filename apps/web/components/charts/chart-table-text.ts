import type { ChartModel, ChartPoint, ChartSeries } from '@curebook/contract/chart-model'

type Row = { readonly series: Pick<ChartSeries, 'label'>; readonly point: Omit<ChartPoint, 'key' | 'x' | 'y'> }
type Heads = { readonly specimen: string; readonly series: string; readonly remarks: string }

/**
 * The numbers of a chart as lines of a spreadsheet, with the units in its first line. Digits are whole, not cut for the eye;
 * `decimalSign` is that of the laboratory.
 */
export function chartTableText(
  { x, y }: Pick<ChartModel, 'x' | 'y'>,
  rows: readonly Row[],
  { heads, decimalSign }: { heads: Heads; decimalSign: string },
): string {
  const digits = (typed: string) => typed.replace('.', decimalSign)
  const lines = [
    [heads.specimen, heads.series, `${x.label} (${x.unit})`, `${y.label} (${y.unit})`, heads.remarks],
    ...rows.map(({ series, point }) => [
      point.label,
      series.label,
      digits(point.xDigits),
      digits(point.yDigits),
      point.flags.join(', '),
    ]),
  ]
  // A tab or a new line within a cell would begin another one.
  return lines.map((cells) => cells.map((cell) => cell.replaceAll(/[\t\r\n]+/g, ' ')).join('\t')).join('\n')
}
