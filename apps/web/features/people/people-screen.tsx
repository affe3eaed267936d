'use client'

import type { Person } from '@curebook/contract/people'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Chip } from '#components/chip.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { AuthorisationPart } from './authorisation-part.tsx'
import { InvitationList } from './invitation-list.tsx'
import { InviteDialog } from './invite-dialog.tsx'
import { MailLine } from './mail-line.tsx'
import { PersonDialog } from './person-dialog.tsx'
import { peopleQueries } from './people.queries.ts'
import { SignedInPart } from './signed-in-part.tsx'

/** Who works here and as what. A person is never deleted: their name stays beside what they did. */
export function PeopleScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const people = useQuery(peopleQueries.list(lab.id))
  const [inviting, setInviting] = useState(false)
  const [changing, setChanging] = useState<Person>()
  const mayInvite = lab.may('people:invite')
  const inviteButton = mayInvite && (
    <Button tone="main" onClick={() => setInviting(true)}>
      {words('people.invite')}
    </Button>
  )
  return (
    <div className="stack stack-wide">
      <PageHeading screen={words('people.title')} under={words('people.about')} actions={inviteButton} />
      <Loaded query={people} what={words('people.these')} height="20rem">
        {(rows) => (
          <PeopleTable
            people={rows}
            onChange={lab.may('people:update') ? setChanging : undefined}
            invite={inviteButton}
          />
        )}
      </Loaded>
      <AuthorisationPart />
      {mayInvite && <InvitationList />}
      {lab.may('signed-in:read') && <SignedInPart />}
      {lab.may('mail:read') && <MailLine />}
      {inviting && <InviteDialog onClose={() => setInviting(false)} />}
      {changing !== undefined && <PersonDialog person={changing} onClose={() => setChanging(undefined)} />}
    </div>
  )
}

function PeopleTable({
  people,
  onChange,
  invite,
}: {
  people: readonly Person[]
  onChange?: (person: Person) => void
  invite: React.ReactNode
}) {
  const words = useWords()
  const columns: readonly Column<Person>[] = [
    { key: 'name', head: words('people.name'), cell: ({ name }) => name, sort: ({ name }) => name },
    {
      key: 'initials',
      head: words('people.initials'),
      cell: ({ initials }) => initials,
      sort: ({ initials }) => initials,
    },
    {
      key: 'roles',
      head: words('people.roles'),
      cell: ({ roles }) => (
        <span className="row" style={{ gap: 'var(--gap-1)' }}>
          {roles.map((role) => (
            <Chip key={role}>{words(`shell.role.${role}`)}</Chip>
          ))}
        </span>
      ),
      sort: ({ roles }) => roles.join(),
    },
    {
      key: 'state',
      head: words('people.state'),
      cell: (person) => <PersonState person={person} />,
      sort: ({ validUntil }) => validUntil ?? '',
    },
    ...(onChange === undefined
      ? []
      : [
          {
            key: 'change',
            head: <span className="sr-only">{words('people.acts')}</span>,
            cell: (person: Person) => (
              <Button
                size="small"
                onClick={() => onChange(person)}
                aria-label={words('people.changeOf', { name: person.name })}
              >
                {words('people.change')}
              </Button>
            ),
          },
        ]),
  ]
  return (
    <DataTable
      caption={words('people.caption')}
      columns={columns}
      rows={people}
      idOf={({ id }) => id}
      empty={
        <EmptyState title={words('people.none')} action={invite}>
          {words('people.noneHelp')}
        </EmptyState>
      }
    />
  )
}

function PersonState({ person }: { person: Person }) {
  const words = useWords()
  if (!person.hasAccount) return <StatusMark status="ended">{words('people.noAccount')}</StatusMark>
  if (person.validUntil === null) return <StatusMark status="current" />
  return (
    <span className="row">
      <StatusMark status="ended">{words('people.untilWord')}</StatusMark>
      <TimeText at={person.validUntil} look="day" />
    </span>
  )
}
