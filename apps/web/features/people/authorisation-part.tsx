'use client'

import type { Authorisation } from '@curebook/contract/authorisations'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { DayText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { AuthorisationDialog } from './authorisation-dialog.tsx'
import { CorrectionDialog } from './authorisation-correction.tsx'
import { authorisationQueries } from './people.queries.ts'

const marks: Record<Authorisation['state'], Status> = {
  later: 'opens-later',
  current: 'current',
  ending: 'closing',
  ended: 'ended',
}

/** What each person is authorised for. An activity without any is left to the roles, which the page says. */
export function AuthorisationPart() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(authorisationQueries.list(lab.id))
  const [granting, setGranting] = useState(false)
  const [changing, setChanging] = useState<Authorisation>()
  const grant = lab.may('authorisation:create') && (
    <Button onClick={() => setGranting(true)}>{words('people.auth.grant')}</Button>
  )
  return (
    <section className="stack" aria-labelledby="authorisations">
      <div className="row row-between">
        <h2 id="authorisations">{words('people.auth.title')}</h2>
        {(query.data?.items.length ?? 0) > 0 && grant}
      </div>
      <Loaded query={query} what={words('people.auth.these')} height="14rem">
        {({ items, activities }) => (
          <>
            {activities.some(({ binds }) => binds) && (
              <FreeActivities labels={activities.flatMap(({ label, binds }) => (binds ? [] : [label]))} />
            )}
            <AuthorisationTable
              rows={items}
              onChange={lab.may('authorisation:correct') ? setChanging : undefined}
              grant={grant}
            />
            {granting && <AuthorisationDialog activities={activities} onClose={() => setGranting(false)} />}
          </>
        )}
      </Loaded>
      {changing !== undefined && <CorrectionDialog authorisation={changing} onClose={() => setChanging(undefined)} />}
    </section>
  )
}

function FreeActivities({ labels }: { labels: readonly string[] }) {
  const words = useWords()
  if (labels.length === 0) return <p>{words('people.auth.allBound')}</p>
  return <p>{words('people.auth.free', { activities: labels.join('; ') })}</p>
}

function AuthorisationTable({
  rows,
  onChange,
  grant,
}: {
  rows: readonly Authorisation[]
  onChange: ((authorisation: Authorisation) => void) | undefined
  grant: React.ReactNode
}) {
  const words = useWords()
  const columns: readonly Column<Authorisation>[] = [
    { key: 'person', head: words('people.name'), cell: ({ person }) => person.name, sort: ({ person }) => person.name },
    {
      key: 'activity',
      head: words('people.auth.activity'),
      cell: ({ activityLabel }) => activityLabel,
      sort: ({ activityLabel }) => activityLabel,
    },
    {
      key: 'from',
      head: words('people.auth.from'),
      cell: ({ fromDay }) => <DayText day={fromDay} />,
      sort: ({ fromDay }) => fromDay,
    },
    {
      key: 'until',
      head: words('people.auth.until'),
      cell: ({ untilDay }) => (untilDay === null ? words('people.auth.open') : <DayText day={untilDay} />),
      sort: ({ untilDay }) => untilDay ?? '9999',
    },
    {
      key: 'state',
      head: words('people.state'),
      cell: ({ state }) => <StatusMark status={marks[state]}>{words(`people.auth.state.${state}`)}</StatusMark>,
      sort: ({ state }) => state,
    },
    {
      key: 'evidence',
      head: words('people.auth.evidence'),
      cell: ({ evidence, reason, by }) => (
        <>
          {evidence} <span className="quiet">{reason === null ? by.name : `${by.name}: ${reason}`}</span>
        </>
      ),
    },
    ...(onChange === undefined
      ? []
      : [
          {
            key: 'change',
            head: <span className="sr-only">{words('people.acts')}</span>,
            cell: (row: Authorisation) => (
              <Button
                size="small"
                onClick={() => onChange(row)}
                aria-label={words('people.auth.changeOf', { name: row.person.name, activity: row.activityLabel })}
              >
                {words('people.change')}
              </Button>
            ),
          },
        ]),
  ]
  return (
    <DataTable
      caption={words('people.auth.title')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      sortParam="authorisations"
      empty={
        <EmptyState title={words('people.auth.none')} action={grant}>
          {words('people.auth.noneHelp')}
        </EmptyState>
      }
    />
  )
}
