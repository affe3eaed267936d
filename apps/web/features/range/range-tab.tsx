'use client'

import type { Design } from '@curebook/contract/designs'
import type { PanelRow, RangeView } from '@curebook/contract/range'
import { useQuery } from '@tanstack/react-query'
import dynamic from 'next/dynamic'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { CalculationLinks } from '#components/calculation-links.ts'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { mayEnterResults } from '#features/designs/design-state.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { curveGroups } from './curve-groups.ts'
import { CurveChart } from './curve-chart.tsx'
import { ExcludedMeans } from './excluded-means.tsx'
import { GradationPart } from './gradation-part.tsx'
import { PanelTable } from './panel-table.tsx'
import { PointTable } from './point-table.tsx'
import { RangeBlock } from './range-block.tsx'
import { rangeQueries } from './range.queries.ts'
import { useResultLinks } from './result-links.ts'
import { ResultDialog, type ShownResult } from './result-dialog.tsx'
import { StatisticsTables } from './statistics-tables.tsx'

const EnterPanelResult = dynamic(
  () => import('./enter-panel-result-dialog.tsx').then(({ EnterPanelResultDialog }) => EnterPanelResultDialog),
  { ssr: false },
)

const EnterGradation = dynamic(
  () => import('./enter-gradation-dialog.tsx').then(({ EnterGradationDialog }) => EnterGradationDialog),
  { ssr: false },
)

const WhatIf = dynamic(() => import('./what-if-part.tsx').then(({ WhatIfPart }) => WhatIfPart), { ssr: false })

const SeenStrip = dynamic(() => import('#features/observations/seen-strip.tsx').then(({ SeenStrip: strip }) => strip), {
  ssr: false,
})

/** What was found: the acceptable range, the curves it comes from, their statistics, and every property of the panel. */
export function RangeTab({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(rangeQueries.range(lab.id, design))
  return (
    <Loaded query={query} what={words('range.these')} height="40rem">
      {(view) => <RangeParts design={design} view={view} />}
    </Loaded>
  )
}

function RangeParts({ design, view }: { design: Design; view: RangeView }) {
  const words = useWords()
  const lab = useLaboratory()
  const [entering, setEntering] = useState<PanelRow>()
  const [sieving, setSieving] = useState(false)
  const mayEnter = mayEnterResults(design) && lab.may('design:enter-result')
  const [shown, setShown] = useState<ShownResult>()
  const groups = curveGroups(view.curves)
  return (
    <CalculationLinks value={useResultLinks(view.curves)}>
      <div className="stack stack-wide">
        <RangeBlock view={view} />
        <section className="stack" aria-labelledby="panel">
          <h2 id="panel">{words('range.panel')}</h2>
          <PanelTable
            rows={view.panel}
            overall={view.overall}
            enterable={view.enterable.map(({ key }) => key)}
            onEnter={mayEnter ? setEntering : undefined}
          />
        </section>
        <GradationPart
          gradation={view.gradation}
          check={view.gradationCheck}
          act={
            mayEnter && (
              <div className="row">
                <Button onClick={() => setSieving(true)}>
                  {words(view.gradation === null ? 'range.gradationEnter' : 'range.gradationReplace')}
                </Button>
              </div>
            )
          }
        />
        <section className="stack" aria-labelledby="curves">
          <h2 id="curves">{words('range.curves')}</h2>
          {groups.length === 0 && (
            <EmptyState title={words('range.noCurves')}>
              {words(view.residue === null ? 'range.noResidue' : 'range.noCurvesMore')}
            </EmptyState>
          )}
          {groups.map((curves) => (
            <CurveChart key={curves.map(({ key }) => key).join(' ')} curves={curves} view={view} onShow={setShown} />
          ))}
        </section>
        {groups.length > 0 && (
          <>
            <StatisticsTables design={design} curves={view.curves} basis={view.basis} />
            <ExcludedMeans curves={view.curves} />
            <SeenStrip designId={design.id} curves={view.curves} />
            <PointTable curves={view.curves} basis={view.basis} onShow={setShown} />
            <WhatIfApart design={design} view={view} />
          </>
        )}
        {entering !== undefined && (
          <EnterPanelResult
            design={design}
            row={entering}
            units={view.enterable.find(({ key }) => key === entering.key)?.units ?? []}
            onClose={() => setEntering(undefined)}
          />
        )}
        {sieving && <EnterGradation design={design} standing={view.gradation} onClose={() => setSieving(false)} />}
        {shown !== undefined && <ResultDialog shown={shown} onClose={() => setShown(undefined)} />}
      </div>
    </CalculationLinks>
  )
}

/** Apart from what stands, closed until somebody asks, and never on paper. */
function WhatIfApart({ design, view }: { design: Design; view: RangeView }) {
  const words = useWords()
  const [open, setOpen] = useState(false)
  if (view.curves.every(({ points }) => points.length === 0)) return null
  return (
    <section className="stack no-print" aria-labelledby="what-if">
      <h2 id="what-if">{words('range.whatIf')}</h2>
      {open ? (
        <WhatIf design={design} view={view} />
      ) : (
        <div className="row">
          <Button onClick={() => setOpen(true)}>{words('range.whatIf.open')}</Button>
        </div>
      )}
    </section>
  )
}
