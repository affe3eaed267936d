'use client'

import type { SignedInDevice } from '@curebook/contract/signed-in'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { TimeText } from '#components/time-text.tsx'
import { agentName } from '#lib/agent-name.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { CutOffDialog } from './cut-off-dialog.tsx'
import { peopleQueries } from './people.queries.ts'

/** Where people of the laboratory are signed in, and the way to cut a lost device off. */
export function SignedInPart() {
  const words = useWords()
  const lab = useLaboratory()
  const devices = useQuery(peopleQueries.signedIn(lab.id))
  const [lost, setLost] = useState<SignedInDevice>()
  const deviceOf = ({ agent }: SignedInDevice) => agentName(agent) ?? words('people.in.unknownDevice')
  const columns: readonly Column<SignedInDevice>[] = [
    {
      key: 'person',
      head: words('people.in.person'),
      cell: ({ person }) => person.name,
      sort: ({ person }) => person.name,
    },
    {
      key: 'device',
      head: words('people.in.device'),
      cell: (device) => (
        <>
          {deviceOf(device)}
          {device.current && ` (${words('people.in.thisDevice')})`}
          {device.byPin.length > 0 && <div>{words('people.in.byPin', { names: device.byPin.join(', ') })}</div>}
        </>
      ),
    },
    {
      key: 'since',
      head: words('people.in.since'),
      cell: ({ startedAt }) => <TimeText at={startedAt} look="short" />,
      sort: ({ startedAt }) => startedAt,
    },
    {
      key: 'seen',
      head: words('people.in.seen'),
      cell: ({ lastSeenAt }) => <TimeText at={lastSeenAt} look="short" />,
      sort: ({ lastSeenAt }) => lastSeenAt,
    },
    { key: 'address', head: words('people.in.address'), cell: ({ address }) => address ?? '' },
    {
      key: 'end',
      head: <span className="sr-only">{words('people.acts')}</span>,
      cell: (device) =>
        !device.current &&
        lab.may('signed-in:end') && (
          <Button
            size="small"
            onClick={() => setLost(device)}
            aria-label={words('people.in.cutOffOf', { name: device.person.name, device: deviceOf(device) })}
          >
            {words('people.in.cutOff')}
          </Button>
        ),
    },
  ]
  return (
    <section className="stack" aria-labelledby="signed-in">
      <h2 id="signed-in">{words('people.in.title')}</h2>
      <p>{words('people.in.about')}</p>
      <Loaded query={devices} what={words('people.in.these')} height="8rem">
        {(rows) => (
          <DataTable
            caption={words('people.in.title')}
            captionHidden
            columns={columns}
            rows={rows}
            idOf={({ id }) => id}
            sortParam="signed-in"
            empty={<EmptyState title={words('people.in.none')} />}
          />
        )}
      </Loaded>
      {lost !== undefined && <CutOffDialog device={lost} called={deviceOf(lost)} onClose={() => setLost(undefined)} />}
    </section>
  )
}
