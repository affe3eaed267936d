'use client'

import type { Client } from '@curebook/contract/projects'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { clientQueries } from './clients.queries.ts'
import { NewClientDialog } from './new-client-dialog.tsx'

/** Contractors, producers and road owners that the laboratory works for. */
export function ClientsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const query = useQuery(clientQueries.list(lab.id))
  const [making, setMaking] = useState(false)
  const make = lab.may('client:create') && (
    <Button tone="main" onClick={() => setMaking(true)}>
      {words('clients.new')}
    </Button>
  )
  return (
    <div className="stack">
      <Breadcrumb trail={[{ href: `/l/${lab.short}/projects`, label: words('clients.projects') }]} />
      <PageHeading screen={words('clients.title')} under={words('clients.under')} actions={make} />
      <Loaded query={query} what={words('clients.these')}>
        {({ items }) => <ClientTable rows={items} make={make} />}
      </Loaded>
      {making && (
        <NewClientDialog
          onMade={({ name }) => confirm(words('clients.made', { name }))}
          onClose={() => setMaking(false)}
        />
      )}
    </div>
  )
}

function ClientTable({ rows, make }: { rows: readonly Client[]; make: React.ReactNode }) {
  const words = useWords()
  const columns: readonly Column<Client>[] = [
    { key: 'name', head: words('clients.name'), sort: ({ name }) => name, cell: ({ name }) => name },
    { key: 'contact', head: words('clients.contact'), cell: ({ contact }) => contact },
    {
      key: 'address',
      head: words('clients.address'),
      cell: ({ address }) => <span style={{ whiteSpace: 'pre-line' }}>{address}</span>,
    },
  ]
  return (
    <DataTable
      caption={words('clients.title')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      empty={
        <EmptyState title={words('clients.none')} action={make}>
          {words('clients.noneMore')}
        </EmptyState>
      }
    />
  )
}
