'use client'

import type { DeviceSession } from '@curebook/contract/session'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { TimeText } from '#components/time-text.tsx'
import { agentName } from '#lib/agent-name.ts'
import { useWords } from '#lib/words.ts'
import { accountQueries, useEndDevice, useSignOutEverywhere } from './account.queries.ts'

/** Where this account is signed in, one sign-out for each and one for all. */
export function Devices() {
  const words = useWords()
  const devices = useQuery(accountQueries.devices())
  const end = useEndDevice()
  const everywhere = useSignOutEverywhere()
  const [asked, setAsked] = useState(false)
  const columns: readonly Column<DeviceSession>[] = [
    {
      key: 'agent',
      head: words('account.device'),
      cell: ({ agent, current }) =>
        `${agentName(agent) ?? words('account.unknownDevice')}${current ? ` (${words('account.thisDevice')})` : ''}`,
    },
    { key: 'address', head: words('account.address'), cell: ({ address }) => address ?? '' },
    {
      key: 'started',
      head: words('account.signedIn'),
      cell: ({ startedAt }) => <TimeText at={startedAt} look="short" />,
    },
    {
      key: 'seen',
      head: words('account.lastSeen'),
      cell: ({ lastSeenAt }) => <TimeText at={lastSeenAt} look="short" />,
    },
    {
      key: 'end',
      head: <span className="sr-only">{words('account.signOutHead')}</span>,
      cell: ({ id, current }) =>
        !current && (
          <Button size="small" busy={end.isPending} onClick={() => end.mutate(id)}>
            {words('account.signOutThere')}
          </Button>
        ),
    },
  ]
  const failed = end.error ?? everywhere.error
  return (
    <section className="stack" aria-labelledby="devices">
      <h2 id="devices">{words('account.devices')}</h2>
      {failed !== null && <p role="alert">{failed.message}</p>}
      <Loaded query={devices} what={words('account.theDevices')} height="8rem">
        {(rows) => (
          <DataTable
            caption={words('account.devices')}
            captionHidden
            columns={columns}
            rows={rows}
            idOf={({ id }) => id}
            empty={<EmptyState title={words('account.noDevices')} />}
          />
        )}
      </Loaded>
      <div className="row">
        {asked ? (
          <>
            <Button onClick={() => setAsked(false)}>{words('account.stay')}</Button>
            <Button tone="danger" busy={everywhere.isPending} onClick={() => everywhere.mutate()}>
              {words('account.signOutEverywhere')}
            </Button>
          </>
        ) : (
          <Button onClick={() => setAsked(true)}>{words('account.signOutEverywhereAsk')}</Button>
        )}
      </div>
    </section>
  )
}
