'use client'

import type { Schedule, ScheduleRow } from '@curebook/contract/schedule'
import { isClosedDay } from '@curebook/trade/procedure/closed-days'
import { hoursAndMinutes, shiftMinutes, type DayLoad } from '@curebook/trade/procedure/person-load'
import { personMinutes, personMinutesSource } from '@curebook/trade/procedure/person-minutes'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { dayLoadsOf, daysFrom } from './day-load.ts'
import type { Clock } from './schedule-view.ts'
import styles from './schedule.module.css'

type PersonDays = { readonly id: string; readonly name: string } & ReturnType<typeof dayLoadsOf>

const dayCount = 7

/** Hands-on hours and closing windows of each person on each of the coming days; more than a shift holds is said. */
export function ComingDays({
  people,
  rows,
  clock,
}: {
  people: Schedule['people']
  rows: readonly ScheduleRow[]
  clock: Clock
}) {
  const words = useWords()
  const lab = useLaboratory()
  const format = useLaboratoryFormat()
  const shift = shiftMinutes(lab.settings.shifts)
  const days = daysFrom(clock, dayCount)
  const list = people.map(({ membershipId, name }): PersonDays => {
    const own = rows.filter(({ assignee }) => assignee?.membershipId === membershipId)
    return { id: membershipId, name, ...dayLoadsOf(own, clock, days) }
  })
  const columns: readonly Column<PersonDays>[] = [
    { key: 'name', head: words('schedule.person'), sort: ({ name }) => name, cell: ({ name }) => name },
    ...days.map((day, index): Column<PersonDays> => ({
      key: day,
      head: format.nearDay(day),
      unit: isClosedDay(day, lab.settings.closedDays) ? words('schedule.closedDayHead') : words('schedule.hoursUnit'),
      number: true,
      sort: (person) => person.days[index]?.minutes,
      cell: (person) => <DayCell load={person.days[index]} shift={shift} />,
    })),
    {
      key: 'any',
      head: words('schedule.noDay'),
      unit: words('schedule.hoursUnit'),
      number: true,
      sort: ({ anyTime }) => anyTime,
      cell: ({ anyTime }) => hoursAndMinutes(anyTime),
    },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="coming">
      <h2 id="coming">{words('schedule.coming')}</h2>
      <p className="quiet small">{words('schedule.comingAbout', { shift: hoursAndMinutes(shift) })}</p>
      <DataTable
        caption={words('schedule.coming')}
        captionHidden
        columns={columns}
        rows={list}
        idOf={({ id }) => id}
        sortParam="coming"
        empty={<EmptyState title={words('schedule.noPeople')} />}
      />
      <details className={styles.look}>
        <summary>{words('schedule.minutesTable')}</summary>
        <MinutesTable />
      </details>
    </section>
  )
}

function DayCell({ load, shift }: { load: DayLoad | undefined; shift: number }) {
  const words = useWords()
  const { minutes, windows } = load ?? { minutes: 0, windows: 0 }
  if (minutes === 0 && windows === 0) return <span className="quiet">{hoursAndMinutes(0)}</span>
  return (
    <>
      {hoursAndMinutes(minutes)}
      {windows > 0 && <span className={styles.line}>{words('schedule.windowsClose', { count: windows })}</span>}
      {minutes > shift && (
        <strong className={styles.line}>
          {words('schedule.overShift', { over: hoursAndMinutes(minutes - shift) })}
        </strong>
      )}
    </>
  )
}

/** The minutes by which it is counted, as data, with where they come from. */
function MinutesTable() {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  return (
    <div className="stack stack-tight">
      <ul>
        {personMinutes.map(({ form, step, label, people, from, to }) => (
          <li key={`${form} ${step}`}>
            {words('schedule.minutesOf', {
              act: label,
              people,
              minutes: from === to ? digits(String(to)) : `${digits(String(from))}–${digits(String(to))}`,
            })}
          </li>
        ))}
      </ul>
      <p className="quiet small">{words('schedule.minutesSource', { source: personMinutesSource })}</p>
    </div>
  )
}
