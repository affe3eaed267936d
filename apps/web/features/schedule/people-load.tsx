'use client'

import type { Schedule, ScheduleRow } from '@curebook/contract/schedule'
import { hoursAndMinutes, type Round } from '@curebook/trade/procedure/person-load'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { loadOf, type Load } from './person-load.ts'
import { hasNextAct, type Clock } from './schedule-view.ts'

type PersonRow = { readonly id: string; readonly name: string; readonly load: Load }

/** Each person's tests, and today's load in windows and hours; what overlaps is said in words. */
export function PeopleLoad({
  people,
  rows,
  clock,
  onChoose,
}: {
  people: Schedule['people']
  rows: readonly ScheduleRow[]
  clock: Clock
  onChoose: (id: string) => void
}) {
  const words = useWords()
  const list = people.map(({ membershipId, name }): PersonRow => ({
    id: membershipId,
    name,
    load: loadOf(
      rows.filter((row) => row.assignee?.membershipId === membershipId && hasNextAct(row)),
      clock,
    ),
  }))
  const columns: readonly Column<PersonRow>[] = [
    { key: 'name', head: words('schedule.person'), sort: ({ name }) => name, cell: ({ name }) => name },
    {
      key: 'tests',
      head: words('schedule.tests'),
      number: true,
      sort: ({ load }) => load.tests,
      cell: ({ load }) => load.tests,
    },
    {
      key: 'windows',
      head: words('schedule.windowsToday'),
      cell: ({ load }) => <Rounds rounds={load.rounds} />,
    },
    {
      key: 'hours',
      head: words('schedule.hoursToday'),
      unit: words('schedule.hoursUnit'),
      number: true,
      sort: ({ load }) => load.openMs,
      cell: ({ load }) => hoursAndMinutes(load.openMs / 60_000),
    },
    {
      key: 'overlap',
      head: words('schedule.overlap'),
      cell: ({ load }) =>
        load.overlapping.length === 0 ? (
          <span className="quiet">{words('schedule.noOverlap')}</span>
        ) : (
          <strong>{words('schedule.overlaps', { steps: stepsOf(load.overlapping) })}</strong>
        ),
    },
    {
      key: 'show',
      head: <span className="sr-only">{words('schedule.acts')}</span>,
      cell: ({ id, name }) => (
        <Button size="small" onClick={() => onChoose(id)} aria-label={words('schedule.showTestsOf', { name })}>
          {words('schedule.showTests')}
        </Button>
      ),
    },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="people">
      <h2 id="people">{words('schedule.people')}</h2>
      <DataTable
        caption={words('schedule.people')}
        captionHidden
        columns={columns}
        rows={list}
        idOf={({ id }) => id}
        sortParam="people"
        empty={<EmptyState title={words('schedule.noPeople')} />}
      />
    </section>
  )
}

function Rounds({ rounds }: { rounds: readonly Round[] }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  if (rounds.length === 0) return <span className="quiet">{words('schedule.noWindows')}</span>
  const clock = (at: number) => format.instant(new Date(at).toISOString(), 'clock')
  return (
    <ul className="plain-list">
      {rounds.map(({ methodKey, stepKey, stepTitle, from, to, tests }) => (
        <li key={`${methodKey} ${stepKey} ${from} ${to}`}>
          {words('schedule.round', { from: clock(from), to: clock(to), step: stepTitle, tests })}
        </li>
      ))}
    </ul>
  )
}

export function stepsOf(rounds: readonly Round[]): string {
  return [...new Set(rounds.map(({ stepTitle }) => stepTitle))].join(', ')
}
