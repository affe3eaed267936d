'use client'

import type { ProjectSpecifications } from '@curebook/contract/project-specifications'
import type { NamedVersion } from '@curebook/contract/specifications'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { Button, ButtonLink } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { NewerVersion } from './newer-version.tsx'
import { projectSpecificationQueries } from './project-specifications.queries.ts'
import { SetSpecificationDialog } from './set-specification-dialog.tsx'
import { SpecificationLink } from './specification-link.tsx'

/** The dialog is open without a choice made. */
const openChoice = 'any'

/** The version that a project stands on: who set it and why, what has become of it, and which designs keep another one. */
export function ProjectSpecification({ projectId }: { projectId: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(projectSpecificationQueries.ofProject(lab.id, projectId))
  // In the address: whoever adopts a copy for this contract comes back with it chosen.
  const [choosing, setChoosing] = useSearchParam('choose')
  const maySet = lab.may('project:pin')
  return (
    <section className="stack stack-tight" aria-labelledby="specification">
      <h2 id="specification">{words('projectSpecification.title')}</h2>
      <Loaded query={query} what={words('projectSpecification.this')} height="6rem">
        {(told) => (
          <>
            <Stands told={told} />
            <NewerVersion told={told} onSet={maySet ? (id) => setChoosing(id) : undefined} />
            <OtherDesigns others={told.others} />
            <Copies copies={told.copies} />
            <Earlier told={told} />
            {maySet && (
              <div className="row no-print">
                <Button size="small" onClick={() => setChoosing(openChoice)}>
                  {words(told.items.length === 0 ? 'projectSpecification.set' : 'projectSpecification.change')}
                </Button>
                {lab.may('specification:adopt') && (
                  <ButtonLink size="small" href={`/l/${lab.short}/specifications/new?project=${projectId}`}>
                    {words('projectSpecification.adoptCopy')}
                  </ButtonLink>
                )}
                {lab.may('specification:write') && (
                  <ButtonLink size="small" href={`/l/${lab.short}/specifications/own?project=${projectId}`}>
                    {words('projectSpecification.writeOwn')}
                  </ButtonLink>
                )}
              </div>
            )}
            {maySet && choosing !== '' && (
              <SetSpecificationDialog
                projectId={projectId}
                stands={told.items[0]}
                chosen={choosing === openChoice ? '' : choosing}
                onClose={() => setChoosing('')}
              />
            )}
          </>
        )}
      </Loaded>
    </section>
  )
}

function Stands({ told: { items, withdrawn } }: { told: ProjectSpecifications }) {
  const words = useWords()
  const [stands] = items
  if (stands === undefined) return <p className="quiet prose">{words('projectSpecification.none')}</p>
  return (
    <>
      <p>
        <SpecificationLink of={stands.specification} />
      </p>
      <p className="quiet small">
        {words('projectSpecification.setBy', { name: stands.by.name })} <TimeText at={stands.at} look="day" />
        {stands.reason !== null && `: ${stands.reason}`}
      </p>
      {withdrawn !== null && (
        <p className="caution prose" role="note">
          {words('projectSpecification.withdrawn', { name: withdrawn.by.name, reason: withdrawn.reason })}
        </p>
      )}
    </>
  )
}

function OtherDesigns({ others }: { others: ProjectSpecifications['others'] }) {
  const words = useWords()
  const lab = useLaboratory()
  if (others.length === 0) return null
  return (
    <div style={{ marginBlock: 'var(--gap-2)' }}>
      <h3>{words('projectSpecification.others')}</h3>
      <ul className="plain-list">
        {others.map(({ designId, name, revision, specification, reason }) => (
          <li key={designId}>
            <Link href={`/l/${lab.short}/designs/${designId}`} prefetch={false}>
              {words('projectSpecification.design', { name, revision })}
            </Link>
            : <SpecificationLink of={specification} />.{' '}
            <span className="quiet">{reason ?? words('projectSpecification.setAfterwards')}</span>
          </li>
        ))}
      </ul>
    </div>
  )
}

function Copies({ copies }: { copies: readonly NamedVersion[] }) {
  const words = useWords()
  if (copies.length === 0) return null
  return (
    <div style={{ marginBlock: 'var(--gap-2)' }}>
      <h3>{words('projectSpecification.copies')}</h3>
      <ul className="plain-list">
        {copies.map((copy) => (
          <li key={copy.id}>
            <SpecificationLink of={copy} />
          </li>
        ))}
      </ul>
    </div>
  )
}

/** What stood before, and why it was left. */
function Earlier({ told: { items } }: { told: ProjectSpecifications }) {
  const words = useWords()
  if (items.length < 2) return null
  return (
    <details>
      <summary>{words('projectSpecification.earlier', { count: items.length - 1 })}</summary>
      <ul className="plain-list small">
        {items.slice(1).map(({ id, specification, by, at, reason }) => (
          <li key={id}>
            <SpecificationLink of={specification} />. {words('projectSpecification.setBy', { name: by.name })}{' '}
            <TimeText at={at} look="day" />
            {reason !== null && `: ${reason}`}
          </li>
        ))}
      </ul>
    </details>
  )
}
