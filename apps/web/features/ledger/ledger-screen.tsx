'use client'

import type { LedgerEntryView } from '@curebook/contract/ledger'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Chip } from '#components/chip.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { Pagination } from '#components/pagination.tsx'
import { Tabs, useTab } from '#components/tabs.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { Act } from './act.tsx'
import { subjectWords } from './acts.ts'
import { EntryDialog } from './entry-dialog.tsx'
import { HeadPart } from './head-part.tsx'
import { ledgerQueries } from './ledger.queries.ts'
import { VerifyPart } from './verify-part.tsx'

/** Every change, in the order in which it was sealed; whether the chain holds; and its head, to be kept elsewhere. */
export function LedgerScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const mayVerify = lab.may('ledger:verify')
  const tabs = [
    { key: 'entries', label: words('ledger.entries') },
    ...(mayVerify ? [{ key: 'verify', label: words('ledger.verify') }] : []),
    { key: 'head', label: words('ledger.head') },
  ]
  const tab = useTab(tabs.map(({ key }) => key))
  return (
    <div className="stack">
      <PageHeading screen={words('ledger.title')} under={words('ledger.about')} />
      <Tabs label={words('ledger.parts')} tabs={tabs} />
      {tab === 'entries' && <Entries />}
      {tab === 'verify' && <VerifyPart />}
      {tab === 'head' && <HeadPart />}
    </div>
  )
}

function Entries() {
  const words = useWords()
  const lab = useLaboratory()
  const [cursor] = useSearchParam('cursor')
  const [subject, setSubject] = useSearchParam('subject')
  const [kind, id] = subject.split(':')
  const query = useQuery(ledgerQueries.entries(lab.id, { cursor, subjectKind: kind, subjectId: id }))
  const [opened, setOpened] = useState<LedgerEntryView>()
  const columns: readonly Column<LedgerEntryView>[] = [
    {
      key: 'seq',
      head: words('ledger.number'),
      cell: ({ seq }) => <span className="reading">{seq ?? words('ledger.unsealed')}</span>,
    },
    { key: 'at', head: words('ledger.time'), cell: ({ at }) => <TimeText at={at} /> },
    {
      key: 'who',
      head: words('ledger.who'),
      cell: (entry) => (entry.actor === null ? words(`ledger.actor.${entry.actorKind}`) : entry.actor.name),
    },
    { key: 'action', head: words('ledger.action'), cell: ({ action }) => <Act action={action} /> },
    {
      key: 'subject',
      head: words('ledger.subject'),
      cell: ({ subjectKind, subjectId }) => (
        <Button
          size="small"
          tone="quiet"
          onClick={() => setSubject(`${subjectKind}:${subjectId}`, { push: true })}
          aria-label={words('ledger.onlySubject', { kind: subjectWords(subjectKind), id: subjectId })}
        >
          {subjectWords(subjectKind)} <span className="reading">{subjectId.slice(-6)}</span>
        </Button>
      ),
    },
    {
      key: 'content',
      head: words('ledger.content'),
      cell: (entry) => (
        <Button
          size="small"
          onClick={() => setOpened(entry)}
          aria-label={words('ledger.openOf', { number: entry.seq ?? entry.id.slice(-6) })}
        >
          {words('ledger.open')}
        </Button>
      ),
    },
  ]
  const clear = <Button onClick={() => setSubject('')}>{words('ledger.clear')}</Button>
  return (
    <>
      <div className="row">
        {subject !== '' && (
          <Chip name={subject} onRemove={() => setSubject('')}>
            {words('ledger.about1', { kind: subjectWords(kind ?? ''), id: id?.slice(-6) ?? '' })}
          </Chip>
        )}
        <Button size="small" busy={query.isFetching} onClick={() => void query.refetch()}>
          {words('ledger.renew')}
        </Button>
      </div>
      <Loaded query={query} what={words('ledger.theEntries')} height="30rem">
        {({ items, next }) => (
          <>
            <DataTable
              caption={words('ledger.entries')}
              captionHidden
              columns={columns}
              rows={items}
              idOf={(entry) => entry.id}
              empty={
                subject === '' ? (
                  <EmptyState title={words('ledger.none')} />
                ) : (
                  <EmptyState title={words('ledger.noMatch')} action={clear} />
                )
              }
            />
            <Pagination next={next} />
          </>
        )}
      </Loaded>
      {opened !== undefined && <EntryDialog entry={opened} onClose={() => setOpened(undefined)} />}
    </>
  )
}
