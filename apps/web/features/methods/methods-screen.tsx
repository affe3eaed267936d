'use client'

import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { Button, ButtonLink } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { certainties } from './edition-form.ts'
import { changesIn } from './editions.ts'
import { certaintyCounts, groupsOf, propertyName, type MethodGroup } from './method-groups.ts'
import { methodQueries, type Method } from './methods.queries.ts'

type Certainty = (typeof certainties)[number]

/** The test methods in their groups, each with the edition that tests made now are pinned to, and how sure its bounds are. */
export function MethodsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const mayRead = lab.may('method:read')
  const query = useQuery({ ...methodQueries.list(lab.id), enabled: mayRead })
  return (
    <div className="stack">
      <PageHeading
        screen={words('methods.title')}
        under={words('methods.under')}
        actions={
          <>
            {query.data !== undefined && <Button onClick={() => window.print()}>{words('methods.print')}</Button>}
            {lab.may('validation:run') && (
              <ButtonLink href={`/l/${lab.short}/validation`}>{words('methods.validation')}</ButtonLink>
            )}
          </>
        }
      />
      {mayRead ? (
        <Loaded query={query} what={words('methods.these')} height="16rem">
          {({ items }) => <MethodGroups methods={items} />}
        </Loaded>
      ) : (
        <EmptyState title={words('methods.notShown')}>{words('methods.notShownMore')}</EmptyState>
      )}
    </div>
  )
}

function MethodGroups({ methods }: { methods: readonly Method[] }) {
  const words = useWords()
  const groups = groupsOf(methods)
  if (groups.length === 0) return <EmptyState title={words('methods.none')} />
  return (
    <div className="stack stack-wide">
      <p className="quiet prose">{words('methods.certaintyAbout')}</p>
      {groups.map((group) => (
        <section key={group.key} className="stack stack-tight" aria-labelledby={`group-${group.key}`}>
          <h2 id={`group-${group.key}`}>{words(`methods.group.${group.key}`)}</h2>
          <MethodTable group={group.key} rows={group.methods} />
        </section>
      ))}
    </div>
  )
}

function MethodTable({ group, rows }: { group: MethodGroup; rows: readonly Method[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const inForce = ({ editions }: Method) => editions.find((edition) => edition.inForce)
  const count = (certainty: Certainty): Column<Method> => ({
    key: certainty,
    head: words(`methods.counted.${certainty.replaceAll(' ', '-')}`),
    number: true,
    cell: (method) => certaintyCounts(inForce(method)?.parameters ?? {})[certainty],
  })
  const columns: readonly Column<Method>[] = [
    {
      key: 'name',
      head: words('methods.method'),
      cell: ({ key, name }) => (
        <Link href={`/l/${lab.short}/methods/${key}`} prefetch={false}>
          {name}
        </Link>
      ),
    },
    { key: 'form', head: words('methods.specimen'), cell: ({ form }) => words(`methods.form.${form}`) },
    {
      key: 'answers',
      head: words('methods.answers'),
      cell: ({ answers }) => answers.map(propertyName).join('; '),
    },
    {
      key: 'edition',
      head: words('methods.inForce'),
      cell: (method) => {
        const edition = inForce(method)
        if (edition === undefined) return words('methods.noneInForce')
        const { designation, year, revision } = edition
        return words('methods.editionName', { designation, year, revision })
      },
    },
    ...certainties.map(count),
    {
      key: 'changed',
      head: words('methods.changedBounds'),
      number: true,
      cell: (method) => {
        const edition = inForce(method)
        return edition === undefined ? '' : changesIn(edition, method.builtIn)
      },
    },
  ]
  return (
    <DataTable
      caption={words(`methods.group.${group}`)}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ key }) => key}
      empty={null}
    />
  )
}
