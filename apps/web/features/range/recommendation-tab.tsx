'use client'

import type { Design } from '@curebook/contract/designs'
import type { RangeView } from '@curebook/contract/range'
import type { Recommendation } from '@curebook/contract/recommendations'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { isNewest } from '#features/designs/design-state.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { RangeBlock } from './range-block.tsx'
import { rangeQueries } from './range.queries.ts'
import { RecommendationFacts } from './recommendation-facts.tsx'
import { RecommendationForm } from './recommendation-form.tsx'

/** The engineer's content: entered, never computed. The range stands above it. */
export function RecommendationTab({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const range = useQuery(rangeQueries.range(lab.id, design))
  const query = useQuery(rangeQueries.recommendation(lab.id, design))
  return (
    <div className="stack stack-wide">
      <Loaded query={range} what={words('range.these')} height="16rem">
        {(view) => (
          <>
            <RangeBlock view={view} brief />
            <Loaded query={query} what={words('range.theRecommendation')} height="16rem">
              {({ recommendation }) => <Part design={design} view={view} recommendation={recommendation} />}
            </Loaded>
          </>
        )}
      </Loaded>
    </div>
  )
}

function Part({
  design,
  view,
  recommendation,
}: {
  design: Design
  view: RangeView
  recommendation: Recommendation | null
}) {
  const words = useWords()
  const lab = useLaboratory()
  // What the open form began with: somebody else's recommendation behind it takes nothing that is typed away.
  const [opened, setOpened] = useState<{ readonly standing: Recommendation | null } | null>(
    recommendation === null ? { standing: null } : null,
  )
  const form = opened ?? (recommendation === null ? { standing: null } : null)
  const may = lab.may('recommendation:create') && isNewest(design) && design.state !== 'approved'
  return (
    <section className="stack" aria-labelledby="recommendation">
      <h2 id="recommendation">{words('range.recommendation')}</h2>
      {recommendation !== null && <RecommendationFacts recommendation={recommendation} />}
      {recommendation === null && !may && (
        <EmptyState title={words('range.noRecommendation')}>{words('range.noRecommendationMore')}</EmptyState>
      )}
      {may && view.residue === null && (
        <p className="caution" role="note">
          {words('range.residueFirst')}
        </p>
      )}
      {may && view.residue !== null && form !== null && (
        <RecommendationForm
          key={form.standing?.id ?? 'first'}
          design={design}
          view={view}
          standing={form.standing}
          onDone={() => setOpened(null)}
        />
      )}
      {may && recommendation !== null && form === null && (
        <div className="row no-print">
          <Button onClick={() => setOpened({ standing: recommendation })}>{words('range.recommendAnother')}</Button>
        </div>
      )}
    </section>
  )
}
