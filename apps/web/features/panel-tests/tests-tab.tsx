'use client'

import type { Design } from '@curebook/contract/designs'
import type { PanelTests } from '@curebook/contract/panel-tests'
import type { RangeView } from '@curebook/contract/range'
import { useQuery } from '@tanstack/react-query'
import dynamic from 'next/dynamic'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { Select } from '#components/select.tsx'
import { designQueries } from '#features/designs/designs.queries.ts'
import { mayChange } from '#features/designs/design-state.ts'
import { rangeQueries } from '#features/range/range.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { type LineState, panelLines, stateOf } from './panel-state.ts'
import { panelTestQueries } from './panel-tests.queries.ts'
import { LineTable } from './line-table.tsx'
import { TestTable } from './test-table.tsx'

const PlanTestDialog = dynamic(() => import('./plan-test-dialog.tsx').then(({ PlanTestDialog: Plan }) => Plan), {
  ssr: false,
})
const Replicates = dynamic(
  () => import('#features/replicates/replicate-part.tsx').then(({ ReplicatePart }) => ReplicatePart),
  { ssr: false },
)
const Charts = dynamic(() => import('./panel-charts.tsx').then(({ PanelCharts }) => PanelCharts), { ssr: false })

/** What the panel asks for, how far each is, and what the tests beside the series found. */
export function TestsTab({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const range = useQuery(rangeQueries.range(lab.id, design))
  const tests = useQuery(panelTestQueries.of(lab.id, design))
  return (
    <Loaded query={range} what={words('panelTests.these')} height="40rem">
      {(view) => (
        <Loaded query={tests} what={words('panelTests.these')} height="40rem">
          {(panel) => <Parts design={design} view={view} panel={panel} />}
        </Loaded>
      )}
    </Loaded>
  )
}

function Parts({ design, view, panel }: { design: Design; view: RangeView; panel: PanelTests }) {
  const words = useWords()
  const lab = useLaboratory()
  const methods = useQuery(designQueries.methods(lab.id))
  const [ready, setReady] = useSearchParam('panel')
  const [planning, setPlanning] = useState<string>()
  const chosen = panel.panels.find(({ key }) => key === ready)
  const lines = panelLines(view.panel, panel, chosen)
  const may = mayChange(design) && lab.may('design:plan')
  const beside = (methods.data?.items ?? []).filter(({ place }) => place === 'panel')
  const recommended = useQuery({
    ...rangeQueries.recommendation(lab.id, design),
    enabled: lab.may('recommendation:read'),
  })
  // Where a content is recommended, that one is to be judged; else a person says which.
  const asked = recommended.data?.recommendation?.emulsionPercent
  const mix = design.mixes.find((one) => asked !== undefined && Number(one.emulsionPercent) === Number(asked))
  const content = mix?.id ?? (design.mixes.length === 1 ? (design.mixes[0]?.id ?? '') : '')
  const inState = (state: LineState) => lines.filter((line) => stateOf(line) === state).length
  const [missing, open] = [inState('missing'), inState('planned') + inState('running')]
  return (
    <div className="stack stack-wide">
      <section className="stack" aria-labelledby="asked">
        <h2 id="asked">{words('panelTests.asked')}</h2>
        <div className="row row-between no-print">
          <Select
            name="panel"
            label={words('panelTests.panel')}
            value={chosen?.key ?? ''}
            onChange={(event) => setReady(event.target.value)}
            prompt={words('panelTests.ofSpecification')}
            options={panel.panels.map(({ key: value, name: label }) => ({ value, label }))}
          />
          {may && beside.length > 0 && <Button onClick={() => setPlanning('')}>{words('panelTests.planOther')}</Button>}
        </div>
        {chosen && <p className="quiet small">{words('panelTests.panelSource', { source: chosen.source })}</p>}
        <p className="strong">
          {words(missing === 0 ? 'panelTests.noneMissing' : 'panelTests.missing', {
            count: missing,
            all: lines.length,
          })}{' '}
          {open > 0 && words('panelTests.stillOpen', { count: open })}
        </p>
        <LineTable
          lines={lines}
          design={design}
          onPlan={may ? (line) => setPlanning(line.methods.find(({ place }) => place === 'panel')?.key) : undefined}
        />
      </section>
      <Charts charts={panel.charts} />
      <section className="stack" aria-labelledby="made">
        <h2 id="made">{words('panelTests.made')}</h2>
        <TestTable tests={panel.tests} mayPlan={may} />
      </section>
      {panel.tests.length > 0 && <Replicates design={design} />}
      {planning !== undefined && (
        <PlanTestDialog
          design={design}
          methods={beside}
          preset={planning}
          content={content}
          onClose={() => setPlanning(undefined)}
        />
      )}
    </div>
  )
}
