'use client'

import type { Design, Mix } from '@curebook/contract/designs'
import { useQuery } from '@tanstack/react-query'
import dynamic from 'next/dynamic'
import Link from 'next/link'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { BatchSheets } from './batch-sheets.tsx'
import { DemandPart } from './demand-part.tsx'
import { mayChange } from './design-state.ts'
import { designQueries } from './designs.queries.ts'
import { PlanForm } from './plan-form.tsx'
import { SeriesLinks } from './series-links.tsx'

const Estimate = dynamic(
  () => import('#features/estimates/estimate-part.tsx').then(({ EstimatePart }) => EstimatePart),
  {
    ssr: false,
  },
)

/** The contents of the series and what to weigh for each; planning makes mixes, specimens with codes, and tests. */
export function SeriesTab({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const [adding, setAdding] = useState(false)
  const methods = useQuery(designQueries.methods(lab.id))
  const may = mayChange(design) && lab.may('design:plan')
  const none = design.mixes.length === 0
  return (
    <Loaded query={methods} what={words('designs.theMethods')} height="24rem">
      {({ items }) => {
        const made = items.filter(({ place, madeFrom }) => place === 'series' && madeFrom === 'batch')
        return (
          <div className="stack stack-wide">
            {none && !may && <EmptyState title={words('designs.noSeries')}>{words('designs.noSeriesMore')}</EmptyState>}
            {!none && <MixTable mixes={design.mixes} />}
            {!none && <SeriesLinks design={design} methods={made} />}
            {none && <Estimate design={design} />}
            {may && (none || adding) && (
              <section className="stack stack-tight no-print" aria-labelledby="plan">
                <h2 id="plan">{words(none ? 'designs.planTitle' : 'designs.extendTitle')}</h2>
                <p className="quiet">{words(none ? 'designs.planAbout' : 'designs.extendAbout')}</p>
                <PlanForm design={design} methods={made} onDone={() => setAdding(false)} />
              </section>
            )}
            {may && !none && !adding && (
              <div className="row no-print">
                <Button onClick={() => setAdding(true)}>{words('designs.extend')}</Button>
              </div>
            )}
            {!none && <DemandPart design={design} />}
            {none && (
              <p className="no-print">
                <Link href={`/l/${lab.short}/designs/${design.id}/please-send`} prefetch={false}>
                  {words('designs.toPleaseSend')}
                </Link>
              </p>
            )}
            {!none && (
              <BatchSheets design={design} methodNames={new Map(items.map(({ key, shortName }) => [key, shortName]))} />
            )}
          </div>
        )
      }}
    </Loaded>
  )
}

function MixTable({ mixes }: { mixes: readonly Mix[] }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const share = (key: 'waterPercent' | 'fillerPercent' | 'additivePercent'): Column<Mix> => ({
    key,
    head: words(`designs.share.${key}`),
    unit: words('designs.ofDryAggregate'),
    number: true,
    cell: (mix) => digits(mix[key]),
  })
  const columns: readonly Column<Mix>[] = [
    {
      key: 'mix',
      head: words('designs.mix'),
      cell: ({ emulsionPercent }) => words('designs.mixName', { content: digits(emulsionPercent) }),
    },
    share('waterPercent'),
    share('fillerPercent'),
    share('additivePercent'),
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="mixes">
      <h2 id="mixes">{words('designs.contents')}</h2>
      <DataTable
        caption={words('designs.contents')}
        captionHidden
        columns={columns}
        rows={mixes}
        idOf={({ id }) => id}
        sortParam="mixes"
        empty={null}
      />
    </section>
  )
}
