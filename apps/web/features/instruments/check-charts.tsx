'use client'

import type { CheckChart } from '@curebook/contract/check-charts'
import { Chart } from '#components/charts/chart.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { chartsOfChecks, decimalsOf } from './check-chart-model.ts'

/** What was checked more than once against one value, over time: a control chart, or how many checks it still takes. */
export function CheckCharts({ charts }: { charts: readonly CheckChart[] }) {
  return charts.map((chart) => <OneChart key={chart.key} chart={chart} />)
}

function OneChart({ chart }: { chart: CheckChart }) {
  const words = useWords()
  const { quantity, instant, decimalSign } = useLaboratoryFormat()
  const { kind, nominal, unit, count, missing, limits, points } = chart
  const named = { kind: words(`instruments.check.${kind}`), nominal: quantity(nominal, unit), count, missing }
  if (limits === null)
    return <p className="quiet">{words(missing > 0 ? 'instruments.chart.few' : 'instruments.chart.alike', named)}</p>
  const title = words('instruments.chart.title', named)
  // A limit is computed: it is written one decimal finer than what was read.
  const written = (digits: string) => quantity(digits, unit, decimalsOf(chart) + 1)
  const { individuals, movingRange, rules } = limits
  const signals = points.flatMap(({ signals: own, checkedAt }) =>
    own.map((rule) => words('instruments.chart.signal', { rules, rule, at: instant(checkedAt, 'short') })),
  )
  const models = chartsOfChecks(chart, {
    individuals: {
      title,
      sentence: [
        count > points.length ? words('instruments.chart.latest', { shown: points.length, count }) : '',
        words('instruments.chart.individuals', {
          centre: written(individuals.centre),
          lower: written(individuals.lower),
          upper: written(individuals.upper),
        }),
        ...(signals.length > 0 ? signals : [words('instruments.chart.noSignal', { rules })]),
      ]
        .filter((part) => part !== '')
        .join(' '),
    },
    ranges: {
      title: words('instruments.chart.ofRanges', { title }),
      sentence: words('instruments.chart.ranges', {
        centre: written(movingRange.centre),
        upper: written(movingRange.upper),
      }),
    },
    series: named.kind,
    difference: words('instruments.chart.difference'),
    order: words('instruments.chart.order'),
    orderUnit: words('instruments.chart.oldestFirst'),
    checked: words('instruments.chart.checked'),
    decimalSign,
    at: (checkedAt) => instant(checkedAt, 'short'),
    limit: (which, digits) => words(`instruments.chart.${which}`, { value: written(digits) }),
  })
  return models.map((model) => <Chart key={model.title} model={model} height={260} />)
}
