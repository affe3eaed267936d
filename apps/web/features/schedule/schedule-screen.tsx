'use client'

import type { Schedule } from '@curebook/contract/schedule'
import { useQuery } from '@tanstack/react-query'
import { useMemo, useState } from 'react'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { ClockOffset, clockOffset, useLaboratoryNow } from '#features/bench/laboratory-clock.ts'
import { NoticesPanel } from '#features/notices/notices-panel.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { AssignDialog } from './assign-dialog.tsx'
import { ComingDays } from './coming-days.tsx'
import { useHeldSchedule } from './held-schedule.ts'
import { PeopleLoad } from './people-load.tsx'
import { ScheduleChanges } from './schedule-changes.tsx'
import { ScheduleCounts } from './schedule-counts.tsx'
import { ScheduleFilters, useFilters } from './schedule-filters.tsx'
import { scheduleQueries } from './schedule.queries.ts'
import { ScheduleTable } from './schedule-table.tsx'
import { ScheduleTools } from './schedule-tools.tsx'
import { countsOf, filteredRows, judgedAt } from './schedule-view.ts'
import { useTableLook } from './table-look.ts'

/** What is late, due today, unassigned or stuck, and giving tests to people: a manager's first screen. */
export function ScheduleScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(scheduleQueries.all(lab.id))
  return (
    <div className="stack">
      <PageHeading screen={words('schedule.title')} />
      <NoticesPanel />
      <Loaded query={query} what={words('schedule.this')} height="32rem">
        {(schedule) => (
          <ClockOffset value={clockOffset(schedule.now, query.dataUpdatedAt)}>
            <Board fresh={schedule} />
          </ClockOffset>
        )}
      </Loaded>
    </div>
  )
}

function Board({ fresh }: { fresh: Schedule }) {
  const lab = useLaboratory()
  const held = useHeldSchedule(fresh)
  const { filters, set, clear } = useFilters()
  const look = useTableLook()
  // Half a minute is enough for a list; the bench counts seconds.
  const now = new Date(useLaboratoryNow(30_000)).toISOString()
  const clock = useMemo(() => ({ now, zone: lab.zone }), [now, lab.zone])
  const rows = useMemo(() => judgedAt(held.shown.rows, now), [held.shown.rows, now])
  const visible = useMemo(() => filteredRows(rows, filters, clock), [rows, filters, clock])
  const [chosenIds, setChosen] = useState<ReadonlySet<string>>(new Set())
  const [giving, setGiving] = useState<readonly string[]>()
  const chosen = useMemo(
    () => new Set(rows.filter(({ testId }) => chosenIds.has(testId)).map(({ testId }) => testId)),
    [rows, chosenIds],
  )
  const give = lab.may('assignment:create') ? setGiving : undefined
  return (
    <div className="stack stack-wide">
      <div>
        <ScheduleCounts
          counts={countsOf(rows, clock)}
          elsewhere={held.shown.counts.decisionsElsewhere}
          show={filters.show}
        />
        <ScheduleChanges count={held.changes} onShow={held.show} />
      </div>
      <div className="stack">
        <ScheduleFilters rows={rows} people={held.shown.people} filters={filters} set={set} clear={clear} />
        <ScheduleTable
          rows={visible}
          all={rows}
          look={look}
          chosen={chosen}
          onChosen={setChosen}
          onGive={give}
          onClear={clear}
        />
        <ScheduleTools rows={visible} look={look} filters={filters} people={held.shown.people} now={now} />
      </div>
      <PeopleLoad people={held.shown.people} rows={rows} clock={clock} onChoose={(id) => set('person', id)} />
      <ComingDays people={held.shown.people} rows={rows} clock={clock} />
      {giving !== undefined && (
        <AssignDialog
          ids={giving}
          rows={rows}
          people={held.shown.people}
          clock={clock}
          onAct={held.showNext}
          onRefused={(refused) => setChosen(new Set(refused))}
          onClose={() => setGiving(undefined)}
        />
      )}
    </div>
  )
}
