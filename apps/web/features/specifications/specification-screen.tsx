'use client'

import type { Specification } from '@curebook/contract/specifications'
import { useQuery } from '@tanstack/react-query'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { ButtonLink } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { BandText } from './band-text.tsx'
import { LimitTable } from './limit-table.tsx'
import { specificationQueries } from './specifications.queries.ts'

/** One adopted specification, as projects refer to it. It never changes: other values are another copy. */
export function SpecificationScreen({ id }: { id: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(specificationQueries.list(lab.id))
  const home = `/l/${lab.short}/specifications`
  const found = query.data?.items.find((one) => one.id === id)
  return (
    <div className="stack">
      <Breadcrumb trail={[{ href: home, label: words('specifications.title') }]} />
      <PageHeading
        screen={words('specifications.title')}
        thing={found?.name}
        under={found && words('specifications.underOne', { revision: found.revision })}
      />
      <Loaded query={query} what={words('specifications.thisOne')} height="24rem">
        {() =>
          found === undefined ? (
            <EmptyState
              title={words('specifications.notHere')}
              action={<ButtonLink href={home}>{words('specifications.toAll')}</ButtonLink>}
            />
          ) : (
            <>
              <Facts specification={found} />
              <LimitTable
                limits={found.limits}
                caption={words('specifications.limitsOf', { name: found.name })}
                withChanges
              />
              <p className="quiet small prose">{words('specifications.usAbout')}</p>
            </>
          )
        }
      </Loaded>
    </div>
  )
}

function Facts({ specification }: { specification: Specification }) {
  const words = useWords()
  const facts = [
    [words('specifications.adoptedFrom'), specification.source],
    [words('specifications.aggregateType'), specification.aggregateType],
    [words('specifications.traffic'), words(`specifications.traffic.${specification.traffic}`)],
    [words('specifications.decisionRule'), specification.decisionRule],
    [words('specifications.comparison'), specification.comparison],
  ] as const
  return (
    <dl className="facts panel">
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
      <div>
        <dt>{words('specifications.band')}</dt>
        <dd>
          <BandText band={specification.residualBand} />
        </dd>
      </div>
      <div>
        <dt>{words('specifications.adoptedOn')}</dt>
        <dd>
          <TimeText at={specification.createdAt} look="day" />
        </dd>
      </div>
    </dl>
  )
}
