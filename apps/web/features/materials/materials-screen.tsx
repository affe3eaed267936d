'use client'

import type { Material } from '@curebook/contract/materials'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { Button, ButtonLink } from '#components/button.tsx'
import { Chip } from '#components/chip.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { Select } from '#components/select.tsx'
import { DayText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { byKind, materialKinds, readKind, type Kind } from './material-kinds.ts'
import { materialQueries } from './materials.queries.ts'

/** Samples as received, by kind: the head of every specimen's family tree. */
export function MaterialsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(materialQueries.list(lab.id))
  const [wanted, setWanted] = useSearchParam('kind')
  const kind = readKind(wanted)
  return (
    <div className="stack">
      <PageHeading
        screen={words('materials.title')}
        under={words('materials.under')}
        actions={
          <>
            <ButtonLink href={`/l/${lab.short}/materials/stock`}>{words('materials.stock')}</ButtonLink>
            <ButtonLink href={`/l/${lab.short}/materials/places`}>{words('materials.places')}</ButtonLink>
            <NewLink />
          </>
        }
      />
      <div className="row row-end no-print">
        {kind !== undefined && <Chip onRemove={() => setWanted('')}>{words(`materials.kind.${kind}`)}</Chip>}
        <Select
          name="kind"
          label={words('materials.kindFilter')}
          value={kind ?? ''}
          onChange={(event) => setWanted(event.target.value)}
          prompt={words('materials.allKinds')}
          options={materialKinds.map((value) => ({ value, label: words(`materials.kind.${value}`) }))}
        />
      </div>
      <Loaded query={query} what={words('materials.these')} height="24rem">
        {({ items }) => <Groups items={items} kind={kind} onAll={() => setWanted('')} />}
      </Loaded>
    </div>
  )
}

function NewLink({ kind }: { kind?: Kind }) {
  const words = useWords()
  const lab = useLaboratory()
  if (!lab.may('material:create')) return null
  const query = kind === undefined ? '' : `?kind=${kind}`
  return (
    <ButtonLink href={`/l/${lab.short}/materials/new${query}`} tone={kind === undefined ? 'main' : 'plain'}>
      {words(kind === undefined ? 'materials.new' : `materials.new.${kind}`)}
    </ButtonLink>
  )
}

function Groups({ items, kind, onAll }: { items: readonly Material[]; kind: Kind | undefined; onAll: () => void }) {
  const words = useWords()
  if (items.length === 0)
    return (
      <EmptyState title={words('materials.none')} action={<NewLink />}>
        {words('materials.noneMore')}
      </EmptyState>
    )
  const groups = byKind(items).filter((group) => (kind === undefined ? group.rows.length > 0 : group.kind === kind))
  return (
    <div className="stack stack-wide">
      {groups.map((group) => (
        <section key={group.kind} className="stack stack-tight" aria-labelledby={`kind-${group.kind}`}>
          <h2 id={`kind-${group.kind}`}>{words(`materials.kind.${group.kind}`)}</h2>
          <SampleTable
            kind={group.kind}
            rows={group.rows}
            empty={
              <EmptyState
                title={words('materials.noMatch')}
                action={
                  <div className="row">
                    <Button onClick={onAll}>{words('materials.clearFilter')}</Button>
                    <NewLink kind={group.kind} />
                  </div>
                }
              />
            }
          />
        </section>
      ))}
    </div>
  )
}

function SampleTable({ kind, rows, empty }: { kind: Kind; rows: readonly Material[]; empty: React.ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<Material>[] = [
    {
      key: 'code',
      head: words('materials.code'),
      sort: ({ code }) => code,
      cell: ({ id, code }) => (
        <Link href={`/l/${lab.short}/materials/${id}`} prefetch={false} className="nowrap">
          {code}
        </Link>
      ),
    },
    { key: 'name', head: words('materials.name'), sort: ({ name }) => name, cell: ({ name }) => name },
    {
      key: 'source',
      head: words('materials.source'),
      sort: ({ sourceName }) => sourceName,
      cell: ({ sourceName }) => sourceName,
    },
    { key: 'supplier', head: words('materials.supplier'), cell: ({ supplier }) => supplier },
    { key: 'lot', head: words('materials.lot'), cell: ({ lot }) => lot },
    {
      key: 'received',
      head: words('materials.receivedOn'),
      sort: ({ receivedOn }) => receivedOn,
      cell: ({ receivedOn }) => <DayText day={receivedOn} />,
    },
    { key: 'note', head: words('materials.note'), cell: ({ note }) => note },
  ]
  return (
    <DataTable
      caption={words('materials.caption', { kind: words(`materials.kind.${kind}`) })}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      sortParam={`sort-${kind}`}
      empty={empty}
    />
  )
}
