'use client'

import type { SpecificationHistory } from '@curebook/contract/own-specifications'
import type { Specification } from '@curebook/contract/specifications'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { ButtonLink } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { Select } from '#components/select.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { ForContract } from './for-contract.tsx'
import { OtherVersionPart } from './other-version-part.tsx'
import { isConflict, otherVersions } from './other-versions.ts'
import { specificationQueries, useEditSpecification, useWriteSpecification } from './specifications.queries.ts'
import { WriteForm } from './write-form.tsx'
import { ownOnes } from './written-form.ts'

const writeSchema = () =>
  import('@curebook/contract/own-specifications').then(({ WriteSpecificationSchema }) => WriteSpecificationSchema)
const editSchema = () =>
  import('@curebook/contract/own-specifications').then(({ EditSpecificationSchema }) => EditSpecificationSchema)

/** A specification that copies none of the built-in ones; it may begin as one that the laboratory wrote before. */
export function WriteScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const save = useWriteSpecification(lab.id)
  return (
    <div className="stack">
      <Breadcrumb trail={[{ href: `/l/${lab.short}/specifications`, label: words('specifications.title') }]} />
      <PageHeading screen={words('specifications.writeTitle')} under={words('specifications.writeUnder')} />
      <ForContract />
      {isConflict(save.error) && save.variables !== undefined && (
        <p className="panel prose" role="status">
          {words('specifications.firstStands')}{' '}
          <Link href={`/l/${lab.short}/specifications/${save.variables.id}`} prefetch={false}>
            {words('specifications.showFirst')}
          </Link>
        </p>
      )}
      <Begun save={save} />
    </div>
  )
}

type Writing = { readonly save: ReturnType<typeof useWriteSpecification> }

/** Begins empty, or as the one that the address names. */
function Begun({ save }: Writing) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(specificationQueries.list(lab.id))
  return (
    <Loaded query={query} what={words('specifications.these')} height="24rem">
      {({ items }) => <BegunAs items={ownOnes(items)} save={save} />}
    </Loaded>
  )
}

/** Choosing another one begins the form anew; what becomes of the chosen one meanwhile does not. */
function BegunAs({ items, save }: Writing & { items: readonly Specification[] }) {
  const words = useWords()
  const [copy, setCopy] = useSearchParam('copy')
  const [start, setStart] = useState(() => items.find(({ id }) => id === copy) ?? null)
  const choose = (id: string) => {
    setStart(items.find((one) => one.id === id) ?? null)
    setCopy(id)
  }
  return (
    <>
      {items.length > 0 && (
        <div className="narrow">
          <Select
            name="copy"
            label={words('specifications.beginWith')}
            hint={words('specifications.beginWithHint')}
            prompt={words('specifications.beginEmpty')}
            value={start?.id ?? ''}
            onChange={(event) => choose(event.target.value)}
            options={items.map(({ id, name, version }) => ({
              value: id,
              label: words('specifications.beginOption', { name, version }),
            }))}
          />
        </div>
      )}
      <WriteForm key={start?.id ?? 'empty'} before={null} start={start} schema={writeSchema} save={save} />
    </>
  )
}

/** The next version of one: everything begins as it stands. */
export function EditScreen({ id }: { id: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(specificationQueries.one(lab.id, id))
  const home = `/l/${lab.short}/specifications`
  const found = query.data?.specification
  return (
    <div className="stack">
      <Breadcrumb
        trail={[
          { href: home, label: words('specifications.title') },
          ...(found === undefined ? [] : [{ href: `${home}/${id}`, label: found.name }]),
        ]}
      />
      <PageHeading
        screen={words('specifications.editTitle')}
        thing={found?.name}
        under={words('specifications.editUnder')}
      />
      <Loaded query={query} what={words('specifications.thisOne')} height="24rem">
        {(history) => <OpenedVersion key={id} history={history} />}
      </Loaded>
    </div>
  )
}

/**
 * The form of the version as it was opened. It stays in place with all that was typed while others store versions, withdraw
 * the specification or while the server refuses: what is new then stands above it.
 */
export function OpenedVersion({
  history,
  opened: first = history.specification,
}: {
  history: SpecificationHistory
  opened?: SpecificationHistory['specification']
}) {
  const words = useWords()
  const lab = useLaboratory()
  const [opened] = useState(first)
  const [after, setAfter] = useState(opened.id)
  const save = useEditSpecification(lab.id, after)
  const newest = `/l/${lab.short}/specifications/${history.versions[0]?.id ?? opened.id}`
  const toNewest = <ButtonLink href={newest}>{words('specifications.toNewest')}</ButtonLink>
  if (opened.standing !== 'current') return <EmptyState title={words('specifications.notNewest')} action={toNewest} />
  return (
    <>
      <OtherVersionPart
        opened={opened}
        others={otherVersions(opened, history, save)}
        withdrawn={history.withdrawn}
        refused={isConflict(save.error) ? save.variables : undefined}
        after={after}
        onAfter={setAfter}
      />
      <WriteForm before={opened} after={after} schema={editSchema} save={save} />
    </>
  )
}
