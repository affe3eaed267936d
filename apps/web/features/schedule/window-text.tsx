'use client'

import type { ScheduleRow } from '@curebook/contract/schedule'
import { TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'

/** When the next act may begin and when it must be done, each with its weekday; a closed day is said. */
export function WindowText({
  row: { opensAt, closesAt },
  closed,
}: {
  row: Pick<ScheduleRow, 'opensAt' | 'closesAt'>
  closed: boolean
}) {
  const words = useWords()
  return (
    <>
      {opensAt !== null && (
        <span className="nowrap" style={{ display: 'block' }}>
          <span className="quiet">{words('schedule.opensWord')}</span> <TimeText at={opensAt} look="short" />
        </span>
      )}
      {closesAt !== null && (
        <span className="nowrap" style={{ display: 'block' }}>
          <span className="quiet">{words('schedule.closesWord')}</span> <TimeText at={closesAt} look="short" />
        </span>
      )}
      {closed && <strong>{words('schedule.closedDay')}</strong>}
    </>
  )
}
