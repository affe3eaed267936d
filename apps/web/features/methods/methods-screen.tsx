'use client'

import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { ButtonLink } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { changesIn, shownEdition } from './editions.ts'
import { methodQueries, type Method } from './methods.queries.ts'

/** The test methods, each with the edition that tests made now are pinned to. */
export function MethodsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(methodQueries.list(lab.id))
  return (
    <div className="stack">
      <PageHeading
        screen={words('methods.title')}
        under={words('methods.under')}
        actions={
          lab.may('validation:run') && (
            <ButtonLink href={`/l/${lab.short}/validation`}>{words('methods.validation')}</ButtonLink>
          )
        }
      />
      <Loaded query={query} what={words('methods.these')} height="16rem">
        {({ items }) => <MethodTable rows={items} />}
      </Loaded>
    </div>
  )
}

function MethodTable({ rows }: { rows: readonly Method[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<Method>[] = [
    {
      key: 'name',
      head: words('methods.method'),
      sort: ({ name }) => name,
      cell: ({ key, name }) => (
        <Link href={`/l/${lab.short}/methods/${key}`} prefetch={false}>
          {name}
        </Link>
      ),
    },
    { key: 'form', head: words('methods.specimen'), cell: ({ form }) => words(`methods.form.${form}`) },
    {
      key: 'edition',
      head: words('methods.inForce'),
      cell: ({ editions }) => {
        const edition = editions.find(({ inForce }) => inForce)
        return edition === undefined
          ? words('methods.noneInForce')
          : words('methods.editionName', {
              designation: edition.designation,
              year: edition.year,
              revision: edition.revision,
            })
      },
    },
    {
      key: 'changed',
      head: words('methods.changedBounds'),
      number: true,
      cell: ({ editions, builtIn }) => {
        const edition = shownEdition(editions, '')
        return edition === undefined ? '' : changesIn(edition, builtIn)
      },
    },
    { key: 'steps', head: words('methods.steps'), number: true, cell: ({ steps }) => steps.length },
    {
      key: 'computation',
      head: words('methods.computation'),
      number: true,
      cell: ({ computation }) => computation,
    },
  ]
  return (
    <DataTable
      caption={words('methods.title')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ key }) => key}
      empty={<EmptyState title={words('methods.none')} />}
    />
  )
}
