'use client'

import type { PutIn } from '@curebook/contract/put-in'
import { closedAmong, nextStartDay } from '@curebook/trade/procedure/weekday-law'
import type { PutInRow } from '@curebook/trade/procedure/put-in'
import { dayAfter } from '@curebook/trade/procedure/closed-days'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { dayOf } from '#lib/laboratory-time.ts'
import { useWords } from '#lib/words.ts'

/** Said while it can still be put off: what would end on a day when nobody works, and the next day that does. */
export function ClosedLater({ rows, later }: { rows: readonly PutInRow[]; later: PutIn['later'] }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const { zone, settings } = useLaboratory()
  const first = rows.find(({ putIn }) => putIn !== null)
  if (first?.putIn == null) return null
  const day = dayOf(new Date(first.putIn).toISOString(), zone)
  const closed = closedAmong(day, later, settings.closedDays)
  if (closed.length === 0) return null
  const other = nextStartDay(dayAfter(day, 1), later, settings.closedDays)
  return (
    <div role="status" className="caution">
      <p>
        {words('putIn.closed', {
          day: format.day(day),
          steps: closed
            .map((need) => words('putIn.closedStep', { step: need.title, day: format.day(need.day) }))
            .join(', '),
        })}
      </p>
      {other !== null && <p>{words('putIn.nextDay', { day: format.day(other) })}</p>}
    </div>
  )
}
