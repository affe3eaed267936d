import type { CheckChart } from '@curebook/contract/check-charts'
import type { CheckKind } from '@curebook/contract/instrument-check-kinds'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import { checkChart, fewestChecks } from '@curebook/trade/statistics/check-chart'

/** A check that stands, as digits in its unit. */
export type ChartedCheck = {
  readonly id: string
  readonly kind: CheckKind
  readonly checkedAt: string
  readonly value: string
  readonly nominal: string
  readonly unit: string
}

/** So many of the latest are drawn and judged: what was long ago is another state of the instrument. Common practice, no source. */
const mostDrawn = 50

/** A chart for each thing that was checked against a nominal value of its own, where it was checked more than once. */
export function checkChartsOf(checks: readonly ChartedCheck[]): CheckChart[] {
  const keyOf = ({ kind, nominal, unit }: ChartedCheck) => `${kind} ${nominal} ${unit}`
  const keys = [...new Set(checks.map(keyOf))]
  return keys.flatMap((key): CheckChart[] => {
    const own = checks
      .filter((check) => keyOf(check) === key)
      .toSorted((a, b) => (a.checkedAt < b.checkedAt ? -1 : a.checkedAt > b.checkedAt ? 1 : 0))
    const [first] = own
    if (!first || own.length < 2) return []
    const drawn = own.slice(-mostDrawn)
    const chart = checkChart(drawn.map(({ value }) => value))
    return [
      {
        ...{ key, kind: first.kind, nominal: first.nominal, unit: first.unit, count: own.length },
        missing: Math.max(0, fewestChecks - own.length),
        points: drawn.map(({ id, checkedAt, value }, at) => ({
          ...{ id, checkedAt, value },
          movingRange: at === 0 ? null : (chart?.movingRanges[at - 1] ?? null),
          signals: chart?.signals.filter(({ points }) => points.at(-1) === at).map(({ rule }) => rule) ?? [],
        })),
        limits: chart && { individuals: chart.individuals, movingRange: chart.movingRange, rules: chart.rules },
      },
    ]
  })
}

/** Digits as a chart computes with them: the database's own decimal, without an exponent. */
export function chartDigits(value: { toFixed(): string }): string {
  return plainDigits(decimal(value.toFixed()))
}
