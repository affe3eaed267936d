'use client'

import type { Design } from '@curebook/contract/designs'
import { useQuery } from '@tanstack/react-query'
import dynamic from 'next/dynamic'
import { Loaded } from '#components/loaded.tsx'
import { Skeleton } from '#components/skeleton.tsx'
import { Tabs, useTab } from '#components/tabs.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { DesignHeader } from './design-header.tsx'
import { designQueries } from './designs.queries.ts'

// Each part comes when its tab is opened: a technician looking up a specimen pays for no review.
const Overview = dynamic(() => import('./overview-tab.tsx').then(({ OverviewTab }) => OverviewTab), {
  loading: PartLoading,
})
const Trials = dynamic(() => import('#features/trials/trials-tab.tsx').then(({ TrialsTab }) => TrialsTab), {
  loading: PartLoading,
})
const Series = dynamic(() => import('./series-tab.tsx').then(({ SeriesTab }) => SeriesTab), { loading: PartLoading })
const Specimens = dynamic(() => import('./specimens-tab.tsx').then(({ SpecimensTab }) => SpecimensTab), {
  loading: PartLoading,
})
const Tests = dynamic(() => import('#features/panel-tests/tests-tab.tsx').then(({ TestsTab }) => TestsTab), {
  loading: PartLoading,
})
const Range = dynamic(() => import('#features/range/range-tab.tsx').then(({ RangeTab }) => RangeTab), {
  loading: PartLoading,
})
const Recommendation = dynamic(
  () => import('#features/range/recommendation-tab.tsx').then(({ RecommendationTab }) => RecommendationTab),
  { loading: PartLoading },
)
const Review = dynamic(() => import('#features/review/review-tab.tsx').then(({ ReviewTab }) => ReviewTab), {
  loading: PartLoading,
})
const Reports = dynamic(() => import('#features/reports/reports-tab.tsx').then(({ ReportsTab }) => ReportsTab), {
  loading: PartLoading,
})

const parts = [
  { key: 'overview', needs: 'design:read', Part: Overview },
  { key: 'trials', needs: 'trial-cup:read', Part: Trials },
  { key: 'series', needs: 'design:read', Part: Series },
  { key: 'specimens', needs: 'design:read', Part: Specimens },
  { key: 'tests', needs: 'range:read', Part: Tests },
  { key: 'results', needs: 'range:read', Part: Range },
  { key: 'recommendation', needs: 'recommendation:read', Part: Recommendation },
  { key: 'review', needs: 'review:read', Part: Review },
  { key: 'report', needs: 'report:read', Part: Reports },
] as const

/** One design in the parts of its life; the part and the revision stand in the address. */
export function DesignScreen({ id }: { id: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const [typed] = useSearchParam('revision')
  const revision = /^[1-9]\d{0,3}$/.test(typed) ? Number(typed) : undefined
  const query = useQuery(designQueries.one(lab.id, { id, revision }))
  return (
    <Loaded query={query} what={words('designs.theDesign')} height="32rem">
      {(design) => <DesignParts design={design} />}
    </Loaded>
  )
}

function DesignParts({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const open = parts.filter(({ needs }) => lab.may(needs))
  const tab = useTab(open.map(({ key }) => key))
  const Part = open.find(({ key }) => key === tab)?.Part
  return (
    <div className="stack">
      <DesignHeader design={design} />
      <Tabs
        label={words('designs.parts')}
        tabs={open.map(({ key }) => ({ key, label: words(`designs.part.${key}`) }))}
      />
      {Part !== undefined && <Part design={design} />}
    </div>
  )
}

function PartLoading() {
  const words = useWords()
  return <Skeleton height="24rem" what={words('designs.thePart')} />
}
