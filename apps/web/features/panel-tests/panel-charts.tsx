'use client'

import { chartOfTests } from '@curebook/contract/chart-of-tests'
import type { PanelChart, PanelTests } from '@curebook/contract/panel-tests'
import { useRouter } from 'next/navigation'
import { Chart } from '#components/charts/chart.tsx'
import { heightForNames } from '#components/charts/spread-labels.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'

/** What the tests beside the series found, drawn as their methods declare it; a point opens its test. */
export function PanelCharts({ charts }: Pick<PanelTests, 'charts'>) {
  const words = useWords()
  if (charts.length === 0) return null
  return (
    <section className="stack" aria-labelledby="drawn">
      <h2 id="drawn">{words('panelTests.drawn')}</h2>
      {charts.map((chart) => (
        <TestsChart key={chart.key} chart={chart} />
      ))}
    </section>
  )
}

function TestsChart({ chart }: { chart: PanelChart }) {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const { quantity, decimalSign } = useLaboratoryFormat()
  type Limit = PanelChart['limits'][number]
  const endsOf = ({ value, upper, unit, sense, label }: Limit) =>
    words(`panelTests.limitLine.${upper !== null ? 'between' : sense === 'max' ? 'max' : 'min'}`, {
      label,
      value: quantity(value, unit),
      upper: upper === null ? '' : quantity(upper, unit),
    })
  const shortOf = ({ value, upper, unit, sense }: Limit) =>
    words(`panelTests.limitShort.${upper !== null ? 'between' : sense === 'max' ? 'max' : 'min'}`, {
      value: quantity(value, unit),
      upper: upper === null ? '' : quantity(upper, unit),
    })
  const named = (limit: Limit, name: 'guardedLimit' | 'acceptedLine') => ({
    label: words(`panelTests.${name}`, { limit: endsOf(limit) }),
    short: words(`panelTests.${name}`, { limit: shortOf(limit) }),
  })
  const limitOf = (limit: Limit) =>
    limit.accepted === null ? { label: endsOf(limit), short: shortOf(limit) } : named(limit, 'guardedLimit')
  const acceptedOf = (limit: Limit) => named({ ...limit, ...limit.accepted }, 'acceptedLine')
  const tests = new Set(chart.lines.flatMap(({ points }) => points.map(({ testId }) => testId))).size
  const model = chartOfTests(chart, {
    sentence: [
      words('panelTests.chartOf', { count: tests }),
      ...chart.limits.flatMap((limit) => [
        `${limitOf(limit).label}.`,
        ...(limit.accepted === null ? [] : [`${acceptedOf(limit).label}.`]),
      ]),
      ...(chart.limits.some(({ accepted }) => accepted !== null) ? [words('panelTests.guardBand')] : []),
    ].join(' '),
    decimalSign,
    limit: limitOf,
    accepted: acceptedOf,
  })
  return (
    <Chart
      model={model}
      height={Math.max(320, heightForNames(model))}
      onOpenPoint={(key) => router.push(`/l/${lab.short}/bench/tests/${key.split(' ')[0]}`)}
    />
  )
}
