'use client'

import type { Invitation } from '@curebook/contract/people'
import { useQuery } from '@tanstack/react-query'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { peopleQueries, useRevokeInvitation } from './people.queries.ts'

const marks: Record<Invitation['state'], Status> = { open: 'open', accepted: 'done', revoked: 'void', expired: 'ended' }

export function InvitationList() {
  const words = useWords()
  const lab = useLaboratory()
  const invitations = useQuery(peopleQueries.invitations(lab.id))
  const revoke = useRevokeInvitation(lab.id)
  const confirm = useConfirmation()
  const columns: readonly Column<Invitation>[] = [
    { key: 'name', head: words('people.name'), cell: ({ name }) => name, sort: ({ name }) => name },
    { key: 'email', head: words('people.email'), cell: ({ email }) => email, sort: ({ email }) => email },
    {
      key: 'roles',
      head: words('people.roles'),
      cell: ({ roles }) => roles.map((role) => words(`shell.role.${role}`)).join(', '),
    },
    {
      key: 'state',
      head: words('people.state'),
      cell: ({ state }) => <StatusMark status={marks[state]}>{words(`people.invitationState.${state}`)}</StatusMark>,
      sort: ({ state }) => state,
    },
    {
      key: 'until',
      head: words('people.until'),
      cell: ({ expiresAt }) => <TimeText at={expiresAt} look="short" />,
      sort: ({ expiresAt }) => expiresAt,
    },
    {
      key: 'revoke',
      head: <span className="sr-only">{words('people.acts')}</span>,
      cell: ({ id, name, state }) =>
        state === 'open' && (
          <Button
            size="small"
            busy={revoke.isPending}
            onClick={() => revoke.mutate(id, { onSuccess: () => confirm(words('people.takenBack', { name })) })}
            aria-label={words('people.takeBackOf', { name })}
          >
            {words('people.takeBack')}
          </Button>
        ),
    },
  ]
  return (
    <section className="stack" aria-labelledby="invitations">
      <h2 id="invitations">{words('people.invitations')}</h2>
      {revoke.isError && <p role="alert">{revoke.error.message}</p>}
      <Loaded query={invitations} what={words('people.theInvitations')}>
        {(rows) => (
          <DataTable
            caption={words('people.invitations')}
            captionHidden
            columns={columns}
            rows={rows}
            idOf={({ id }) => id}
            sortParam="invitations"
            empty={<EmptyState title={words('people.noInvitations')} />}
          />
        )}
      </Loaded>
    </section>
  )
}
