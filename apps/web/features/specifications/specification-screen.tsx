'use client'

import type { Specification } from '@curebook/contract/specifications'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button, ButtonLink } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { BandText } from './band-text.tsx'
import { GradationBandTable } from './gradation-band-table.tsx'
import { InformationList } from './information-list.tsx'
import { LimitTable } from './limit-table.tsx'
import { specificationQueries } from './specifications.queries.ts'
import { StandingMark } from './standing-mark.tsx'
import { VersionList } from './version-list.tsx'
import { WithdrawDialog } from './withdraw-dialog.tsx'

/** One version of a specification, as designs pin it: it never changes, another version takes its place. */
export function SpecificationScreen({ id }: { id: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(specificationQueries.one(lab.id, id))
  const home = `/l/${lab.short}/specifications`
  const found = query.data?.specification
  return (
    <div className="stack">
      <Breadcrumb trail={[{ href: home, label: words('specifications.title') }]} />
      <PageHeading
        screen={words('specifications.title')}
        thing={found?.name}
        under={found && words('specifications.underOne', { version: found.version, revision: found.revision })}
        actions={found && <Acts specification={found} />}
      />
      <Loaded query={query} what={words('specifications.thisOne')} height="24rem">
        {(history) => (
          <>
            <Facts specification={history.specification} />
            <LimitTable
              limits={history.specification.limits}
              caption={words('specifications.limitsOf', { name: history.specification.name })}
              withChanges
              comparisonSaid
            />
            <p className="quiet small prose">{words('specifications.usAbout')}</p>
            <GradationBandTable band={history.specification.gradationBand} />
            <InformationList items={history.specification.information} />
            <VersionList history={history} />
          </>
        )}
      </Loaded>
    </div>
  )
}

function Acts({ specification }: { specification: Specification }) {
  const words = useWords()
  const lab = useLaboratory()
  // Open until it is closed, whatever becomes of the specification: a refusal and its reason must be read.
  const [withdrawing, setWithdrawing] = useState<Specification>()
  const mayWrite = specification.standing === 'current' && lab.may('specification:write')
  return (
    <>
      {mayWrite && (
        <ButtonLink href={`/l/${lab.short}/specifications/${specification.id}/edit`} tone="main">
          {words('specifications.edit')}
        </ButtonLink>
      )}
      {mayWrite && specification.key === 'own' && specification.project === null && (
        <ButtonLink href={`/l/${lab.short}/specifications/own?copy=${specification.id}`}>
          {words('specifications.copyIt')}
        </ButtonLink>
      )}
      {mayWrite && lab.may('specification:withdraw') && (
        <Button onClick={() => setWithdrawing(specification)}>{words('specifications.withdraw')}</Button>
      )}
      {withdrawing && <WithdrawDialog specification={withdrawing} onClose={() => setWithdrawing(undefined)} />}
    </>
  )
}

function Facts({ specification }: { specification: Specification }) {
  const words = useWords()
  const lab = useLaboratory()
  const facts = [
    [
      words(specification.key === 'own' ? 'specifications.ownSource' : 'specifications.adoptedFrom'),
      specification.source,
    ],
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
      {specification.project !== null && (
        <div>
          <dt>{words('specifications.copyFor')}</dt>
          <dd>
            <Link href={`/l/${lab.short}/projects/${specification.project.id}`} prefetch={false}>
              {specification.project.name}
            </Link>
          </dd>
        </div>
      )}
      <div>
        <dt>{words(specification.key === 'own' ? 'specifications.writtenOn' : 'specifications.adoptedOn')}</dt>
        <dd>
          <TimeText at={specification.createdAt} look="day" />
          {specification.by !== null && `, ${specification.by.name}`}
        </dd>
      </div>
      <div>
        <dt>{words('specifications.standing')}</dt>
        <dd>
          <StandingMark standing={specification.standing} />
        </dd>
      </div>
    </dl>
  )
}
