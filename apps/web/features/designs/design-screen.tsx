'use client'

import type { Design } from '@curebook/contract/designs'
import { useQuery } from '@tanstack/react-query'
import { Loaded } from '#components/loaded.tsx'
import { Tabs, useTab } from '#components/tabs.tsx'
import { RangeTab } from '#features/range/range-tab.tsx'
import { RecommendationTab } from '#features/range/recommendation-tab.tsx'
import { ReportsTab } from '#features/reports/reports-tab.tsx'
import { ReviewTab } from '#features/review/review-tab.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { DesignHeader } from './design-header.tsx'
import { designQueries } from './designs.queries.ts'
import { OverviewTab } from './overview-tab.tsx'
import { SeriesTab } from './series-tab.tsx'
import { SpecimensTab } from './specimens-tab.tsx'

const parts = [
  { key: 'overview', needs: 'design:read', Part: OverviewTab },
  { key: 'series', needs: 'design:read', Part: SeriesTab },
  { key: 'specimens', needs: 'design:read', Part: SpecimensTab },
  { key: 'results', needs: 'range:read', Part: RangeTab },
  { key: 'recommendation', needs: 'recommendation:read', Part: RecommendationTab },
  { key: 'review', needs: 'review:read', Part: ReviewTab },
  { key: 'report', needs: 'report:read', Part: ReportsTab },
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
